// What the scripts that play with the page share: each is read after it.
const { chromium } = require('playwright-core');
const axe = require('axe-core');
const path = require('path');

const [address, folder, frame] = process.argv.slice(-3);
const time = 400000; // as long as awaits waits
const seen = { Errors: [], Abroad: [], Axe: [], Overlaps: [], Did: [], Lost: [] };

let browser;
const begin = async () => { browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] }); };
const open = async (to, options = {}) => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  context.setDefaultTimeout(time);
  const page = await context.newPage();
  page.on('console', (m) => { if (m.type() !== 'log' && !/GPU stall|GL Driver/.test(m.text())) seen.Errors.push(m.text()); });
  page.on('pageerror', (e) => seen.Errors.push(e.message));
  page.on('crash', () => { console.error('the page has crashed', JSON.stringify(seen)); process.exit(1); });
  page.on('request', (r) => { if (!r.url().startsWith(address) && !/^(blob|data):/.test(r.url())) seen.Abroad.push(r.url()); });
  await page.goto(to);
  return page;
};
const status = (page, pattern) => page.waitForFunction((p) => new RegExp(p).test(document.getElementById('status').textContent), pattern, { timeout: time });
const html = (page, selector) => page.locator(selector).first().innerHTML();
const differs = (page, selector, before) => page.waitForFunction(([s, b]) => document.querySelector(s) && document.querySelector(s).innerHTML !== b, [selector, before], { timeout: time });
const control = (page, key, kind) => page.locator(`.control[data-path="${key}"] input[type=${kind}]`);
// audit runs axe-core in the page's own world: the content policy lets no
// script in, and must not be bypassed here. It also looks for what lies on what.
const audit = async (page, name) => {
  awaits(`axe-core: ${name}`);
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Runtime.evaluate', { expression: axe.source + ';0' });
  const { result } = await cdp.send('Runtime.evaluate', { expression: "axe.run({ rules: { 'target-size': { enabled: true } } }).then((r) => JSON.stringify(r.violations))", awaitPromise: true, returnByValue: true });
  for (const v of JSON.parse(result.value)) {
    seen.Axe.push({ ID: v.id, Impact: v.impact, Help: name + ': ' + v.help, Nodes: v.nodes.map((n) => n.target.join(' ')) });
  }
  seen.Overlaps.push(...(await page.evaluate(overlapping)).map((s) => name + ': ' + s));
  awaits(`what comes after axe-core: ${name}`);
};
const did = (what, yes) => { if (yes) seen.Did.push(what); awaits(`what comes after: ${what}`); };
// held notes where the focus has fallen to the document.
const held = async (page, after) => { if (await page.evaluate(() => document.activeElement === document.body)) seen.Lost.push(after); };
// drag takes the thumb of a slider and moves it; what happens meanwhile
// happens before the button is let go.
const drag = async (page, key, by, meanwhile) => {
  const slider = control(page, key, 'range');
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  const share = await slider.evaluate((s) => (s.value - s.min) / (s.max - s.min));
  const x = box.x + 8 + share * (box.width - 16), y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 8; i++) await page.mouse.move(x + by * i / 8, y);
  await meanwhile();
  await page.mouse.up();
};
// stopped lets the search that follows begin, and ends it.
const stopped = async (page) => {
  await status(page, '^(Searching|Solved|No station)');
  await page.evaluate(() => { const c = document.getElementById('cancel'); if (!c.hidden) { c.focus(); c.click(); } });
};
const question = async (page, title) => { const d = page.locator('.question', { has: page.locator('summary', { hasText: title }) }).first(); if (!await d.evaluate((e) => e.open)) await d.locator('summary').first().click(); };
// told counts what the live region says from here on.
const told = (page) => page.evaluate(() => { window.said = []; new MutationObserver(() => window.said.push(document.getElementById('status').textContent)).observe(document.getElementById('status'), { childList: true, characterData: true, subtree: true }); });
// saves clicks on what saves a file, and keeps that in the folder.
const saves = async (button, name) => {
  const [file] = await Promise.all([button.page().waitForEvent('download'), button.click()]);
  await file.saveAs(path.join(folder, name));
};
// makes has the files of a station made, and saves the cam's.
const makes = async (page) => {
  await page.locator('#make').click();
  const link = page.locator('#files button', { hasText: 'cut/cam.dxf' }).first();
  await link.waitFor();
  await saves(link, 'cam.dxf');
  seen.Files = await page.locator('#files button').allInnerTexts();
};
// played runs a script and prints what was seen.
const played = async (script) => {
  try {
    await begin();
    await script();
    await browser.close();
    console.log(JSON.stringify(seen));
  } catch (e) { console.error(e, JSON.stringify(seen)); process.exit(1); }
};
