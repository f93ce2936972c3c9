// Renders a report: texts of plots that are cut off, at two widths, and the report on
// paper.
const { chromium } = require('playwright-core');

(async () => {
  const [address, folder] = process.argv.slice(-2);
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox'] });
  const out = { Figures: {}, Cut: [] };
  for (const width of [1280, 390]) {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    awaits(`the report at ${width} px`);
    await page.goto(address);
    const seen = await page.evaluate(() => {
      const cut = [], figures = {};
      for (const plot of document.querySelectorAll('svg.plot')) {
        const frame = plot.getBoundingClientRect();
        for (const t of plot.querySelectorAll('text')) {
          const a = t.getBoundingClientRect();
          if (a.left < frame.left - 1 || a.right > frame.right + 1 || a.bottom > frame.bottom + 2) cut.push(plot.ariaLabel + ': ' + t.textContent);
        }
      }
      for (const w of document.querySelectorAll('.wide')) {
        if (w.scrollWidth > w.clientWidth + 1 && getComputedStyle(w).backgroundImage === 'none') cut.push(w.ariaLabel + ': goes on with no sign of it');
      }
      for (const f of document.querySelectorAll('#headline [data-requirement]')) figures[f.dataset.requirement] = f.innerText;
      return { cut, figures };
    });
    out.Cut.push(...seen.cut.map((s) => width + ' px, ' + s));
    out.Figures = seen.figures;
    await page.screenshot({ path: folder + '/report-' + width + '.png', fullPage: true });
    if (width > 1000) await page.pdf({ path: folder + '/report.pdf', preferCSSPageSize: true });
    await page.close();
  }
  await browser.close();
  console.log(JSON.stringify(out));
})().catch((e) => { console.error(e); process.exit(1); });
