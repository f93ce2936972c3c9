// Works the page of a station by keyboard and prints what was seen.
const { chromium } = require('playwright-core');

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] });
  const page = await browser.newPage({ viewport: { width: 640, height: 700 }, reducedMotion: 'reduce' });
  const errors = [];
  page.on('pageerror', (e) => errors.push(e.message));
  awaits('the station');
  await page.goto(process.argv.at(-1));
  await page.waitForFunction(() => window.stage && window.stage.space.solid);
  // picture is what the canvas shows, read in the same turn as it is drawn.
  const picture = () => page.evaluate(() => { window.stage.space.draw(); return document.querySelector('canvas').toDataURL(); });
  const flexion = () => page.evaluate(() => window.stage.motion.degrees);
  const seen = { Errors: errors, Changed: [], Still: 0 };
  const press = async (selector, ...keys) => {
    await page.locator(selector).focus();
    for (const k of keys) await page.keyboard.press(k);
  };
  const changes = async (what, act) => {
    const before = await picture();
    awaits(what);
    await act();
    if (await picture() !== before) seen.Changed.push(what);
  };
  seen.Still = await flexion();
  await changes('turn', () => press('canvas', 'ArrowRight', 'ArrowRight'));
  await changes('move', () => press('canvas', 'Shift+ArrowUp'));
  await changes('nearer', () => press('canvas', '+', '+'));
  await changes('home', () => press('canvas', 'Home'));
  await changes('flexion', () => press('#flexion', 'End'));
  await changes('nobody', () => page.locator('#who').selectOption('-1'));
  await changes('handle', () => page.locator('#set-handle').selectOption({ index: 0 }));
  const before = await flexion();
  await press('.play', 'Enter');
  await page.waitForFunction((b) => Math.abs(window.stage.motion.degrees - b) > 1, before);
  await press('.play', 'Enter');
  const stopped = await flexion();
  await page.waitForTimeout(200);
  if (stopped === await flexion()) seen.Changed.push('stopped');
  await browser.close();
  console.log(JSON.stringify(seen));
})().catch((e) => { console.error(e); process.exit(1); });
