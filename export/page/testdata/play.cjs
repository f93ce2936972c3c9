// Plays with the page as a person would and prints what was seen.
const { chromium } = require('playwright-core');
const axe = require('axe-core');
const path = require('path');

const [address, folder] = process.argv.slice(-2);
const time = 240000; // the machine may be busy
const seen = { Errors: [], Abroad: [], Axe: [] };

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] });
  const open = async (to, options = {}) => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
    context.setDefaultTimeout(time);
    const page = await context.newPage();
    page.on('console', (m) => { if (m.type() !== 'log') seen.Errors.push(m.text()); });
    page.on('pageerror', (e) => seen.Errors.push(e.message));
    page.on('request', (r) => { if (!r.url().startsWith(address) && !/^(blob|data):/.test(r.url())) seen.Abroad.push(r.url()); });
    await page.goto(to);
    return page;
  };
  const status = (page, pattern) => page.waitForFunction((p) => new RegExp(p).test(document.getElementById('status').textContent), pattern, { timeout: time });
  const html = (page, selector) => page.locator(selector).first().innerHTML();
  const differs = (page, selector, before) => page.waitForFunction(([s, b]) => document.querySelector(s) && document.querySelector(s).innerHTML !== b, [selector, before], { timeout: time });
  const control = (page, key, kind) => page.locator(`.control[data-path="${key}"] input[type=${kind}]`);
  // audit runs axe-core in the page's own world: the content policy lets no
  // script in, and must not be bypassed here.
  const audit = async (page, name) => {
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Runtime.evaluate', { expression: axe.source + ';0' });
    const { result } = await cdp.send('Runtime.evaluate', { expression: 'axe.run().then((r) => JSON.stringify(r.violations))', awaitPromise: true, returnByValue: true });
    for (const v of JSON.parse(result.value)) {
      seen.Axe.push({ ID: v.id, Impact: v.impact, Help: name + ': ' + v.help, Nodes: v.nodes.map((n) => n.target.join(' ')) });
    }
  };
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

  const page = await open(address);
  await status(page, '^Solved: every');
  seen.Title = await page.title();
  await audit(page, 'solved');

  // Torque plot and drawing change while a control is dragged.
  const torque = await html(page, '[data-plot=torque]');
  await drag(page, 'resistance.load.middle', 12, () => differs(page, '[data-plot=torque]', torque));
  seen.TorqueChanged = true;
  await status(page, '^Solved');
  await page.getByText('Posture', { exact: true }).click();
  const side = await html(page, '[data-picture=side]');
  await drag(page, 'posture.pivot_height.to', -70, () => differs(page, '[data-picture=side]', side));
  seen.DrawingChanged = true;
  await status(page, '^(Solved|No station)');

  // By keyboard alone.
  const middle = control(page, 'resistance.load.middle', 'range');
  await middle.focus();
  const before = await middle.inputValue();
  await page.keyboard.press('ArrowRight');
  seen.Keyboard = [before, await control(page, 'resistance.load.middle', 'number').inputValue()];
  await status(page, '^(Solved|No station)');
  seen.Address = await page.evaluate(() => location.hash);

  // What cannot be is said beside its control, and the last picture stays.
  await page.locator('#reset').click();
  await status(page, '^Solved: every');
  await page.locator('#keep').click();
  const good = await html(page, '[data-picture=side]');
  await control(page, 'resistance.load.light', 'number').fill('90');
  await page.locator('.control[data-path="resistance.load.light"] .fault').waitFor();
  seen.Fault = await page.locator('.control[data-path="resistance.load.light"] .fault').innerText();
  seen.Kept = (await html(page, '[data-picture=side]')) === good;
  await audit(page, 'with a fault');

  // A brief that nothing meets, and why, in words.
  await page.locator('#reset').click();
  await status(page, '^Solved: every');
  await page.getByText('Space', { exact: true }).click();
  await control(page, 'space.length', 'number').fill('600');
  await control(page, 'space.length', 'number').press('Tab');
  await status(page, '^No station');
  seen.Conflict = await page.locator('#conflict').innerText();
  seen.Verdict = await page.locator('#verdict').innerText();
  await audit(page, 'infeasible');
  await page.locator('#keep').click();
  seen.Designs = await page.locator('#kept th[scope=col]').allInnerTexts();
  await page.locator('#kept').getByRole('button', { name: 'Show Design 1' }).click();
  await page.waitForFunction(() => !location.hash.includes('space.length'));
  await page.locator('#verdict .met').waitFor();

  // Files.
  await page.locator('#make').click();
  const link = page.locator('#files a', { hasText: 'cut/cam.dxf' }).first();
  const [cut] = await Promise.all([page.waitForEvent('download'), link.click()]);
  await cut.saveAs(path.join(folder, 'cam.dxf'));
  const [brief] = await Promise.all([page.waitForEvent('download'), page.locator('#save').click()]);
  await brief.saveAs(path.join(folder, 'brief.yaml'));
  seen.Files = await page.locator('#files a').allInnerTexts();
  await audit(page, 'with files');

  // The cam alone, moving; it can be stopped.
  await page.locator('#alone').check();
  const turn = () => page.locator('#cam g').getAttribute('transform');
  const first = await turn();
  await page.waitForFunction((t) => document.querySelector('#cam g').getAttribute('transform') !== t, first);
  await page.locator('#play').click();
  const stopped = await turn();
  await page.waitForTimeout(300);
  seen.Paused = stopped === await turn();
  await audit(page, 'cam alone');

  // A view is shared by its address, seen at 390 px and at 200 %, by somebody
  // who asked for less motion.
  const shared = address + '#' + new URLSearchParams({ 'resistance.load.heavy': '70 kg', show: 'cam', brief: await page.evaluate(() => document.body.dataset.mark) });
  const other = await open(shared, { viewport: { width: 390, height: 800 }, reducedMotion: 'reduce', colorScheme: 'dark' });
  await status(other, '^Solved');
  seen.Shared = [await control(other, 'resistance.load.heavy', 'number').inputValue(), String(await other.locator('#alone').isChecked()), await other.locator('#play').innerText()];
  await audit(other, '390 px, dark');
  seen.Overflow = [await other.evaluate(() => document.documentElement.scrollWidth - innerWidth)];
  await other.setViewportSize({ width: 640, height: 450 }); // 1280 x 900 at 200 %
  seen.Overflow.push(await other.evaluate(() => document.documentElement.scrollWidth - innerWidth));

  await browser.close();
  console.log(JSON.stringify(seen));
})().catch((e) => { console.error(e, JSON.stringify(seen)); process.exit(1); });
