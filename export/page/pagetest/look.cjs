// Opens one address at two widths, light and dark, and prints what it met.
const { chromium } = require('playwright-core');
const axe = require('axe-core');

(async () => {
  const address = process.argv.at(-1);
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] });
  const views = [];
  for (const Width of [1280, 390]) {
    for (const Scheme of ['light', 'dark']) {
      const view = { Width, Scheme, Errors: [], Abroad: [] };
      const context = await browser.newContext({ viewport: { width: Width, height: 900 }, colorScheme: Scheme, bypassCSP: true });
      const page = await context.newPage();
      page.on('console', (m) => { if (m.type() === 'error') view.Errors.push(m.text()); });
      page.on('pageerror', (e) => view.Errors.push(e.message));
      page.on('request', (r) => { if (!/^(file:|data:|blob:|http:\/\/127\.0\.0\.1[:/])/.test(r.url())) view.Abroad.push(r.url()); });
      awaits(`${address} at ${Width} px, ${Scheme}`);
      await page.goto(address);
      view.Overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      view.Overlaps = await page.evaluate(overlapping);
      await page.evaluate(axe.source);
      const found = await page.evaluate(() => axe.run());
      view.Findings = found.violations.map((v) => ({ ID: v.id, Impact: v.impact, Help: v.help, Nodes: v.nodes.map((n) => n.target.join(' ')) }));
      views.push(view);
      await context.close();
    }
  }
  await browser.close();
  console.log(JSON.stringify(views));
})().catch((e) => { console.error(e); process.exit(1); });
