// Measures in a browser: from a moved control to the painted picture, and pictures a
// second of the station at work.
const { chromium } = require('playwright-core');

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.setDefaultTimeout(300000);
  awaits('the first station');
  await page.goto(process.argv.at(-1));
  await page.waitForFunction(() => /^Solved/.test(document.getElementById('status').textContent));
  awaits('the pictures');
  const out = await page.evaluate(async () => {
    document.getElementById('auto').checked = false;
    const slider = document.querySelector('.control[data-path="resistance.load.middle"] input[type=range]'), plot = document.querySelector('#feel .plot-box');
    // painted is the time of the first picture after the plot has changed.
    const painted = () => new Promise((done) => {
      const o = new MutationObserver(() => { o.disconnect(); requestAnimationFrame(() => { const c = new MessageChannel(); c.port1.onmessage = () => done(performance.now()); c.port2.postMessage(0); }); });
      o.observe(plot, { childList: true });
    });
    const times = [];
    for (let i = 0; i < 80; i++) {
      const from = performance.now(), end = painted();
      slider.value = 20 + i * 0.5;
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      times.push(await end - from);
    }
    document.querySelector('.play').click();
    const gaps = [];
    await new Promise((done) => {
      const began = performance.now();
      let then = began;
      const frame = (now) => {
        gaps.push(now - then);
        then = now;
        if (now - began < 6000) requestAnimationFrame(frame);
        else done();
      };
      requestAnimationFrame(frame);
    });
    document.querySelector('.play').click();
    const sorted = times.slice(10).sort((a, b) => a - b), late = gaps.slice(Math.floor(gaps.length / 2)); // once the picture has been suited to the machine
    return { P95: sorted[Math.floor(sorted.length * 0.95)], Median: sorted[sorted.length >> 1], Frames: 1000 * late.length / late.reduce((a, b) => a + b, 0) };
  });
  await browser.close();
  console.log(JSON.stringify(out));
})().catch((e) => { console.error(e); process.exit(1); });
