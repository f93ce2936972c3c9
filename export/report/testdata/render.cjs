// Renders a report: texts of plots that lie on one another, at two widths, and the
// report on paper.
const { chromium } = require('playwright-core');

(async () => {
  const [address, folder] = process.argv.slice(-2);
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox'] });
  const out = { Overlaps: [], Figures: {}, Cut: [] };
  for (const width of [1280, 390]) {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    await page.goto(address);
    const seen = await page.evaluate(() => {
      const overlaps = [], cut = [], figures = {};
      for (const plot of document.querySelectorAll('svg.plot')) {
        const frame = plot.getBoundingClientRect();
        const boxes = [...plot.querySelectorAll('text')].map((t) => [t.textContent, t.getBoundingClientRect()]);
        boxes.forEach(([name, a], i) => {
          if (a.left < frame.left - 1 || a.right > frame.right + 1 || a.bottom > frame.bottom + 2) cut.push(plot.ariaLabel + ': ' + name);
          for (const [other, b] of boxes.slice(0, i)) {
            const w = Math.min(a.right, b.right) - Math.max(a.left, b.left), h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            if (w > 1 && h > 0.3 * Math.min(a.height, b.height)) overlaps.push(plot.ariaLabel + ': ' + name + ' on ' + other);
          }
        });
      }
      for (const f of document.querySelectorAll('#headline [data-requirement]')) figures[f.dataset.requirement] = f.innerText;
      return { overlaps, cut, figures };
    });
    out.Overlaps.push(...seen.overlaps.map((s) => width + ' px, ' + s));
    out.Cut.push(...seen.cut.map((s) => width + ' px, ' + s));
    out.Figures = seen.figures;
    await page.screenshot({ path: folder + '/report-' + width + '.png', fullPage: true });
    if (width > 1000) await page.pdf({ path: folder + '/report.pdf', preferCSSPageSize: true });
    await page.close();
  }
  await browser.close();
  console.log(JSON.stringify(out));
})().catch((e) => { console.error(e); process.exit(1); });
