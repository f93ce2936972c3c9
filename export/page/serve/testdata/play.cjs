// Plays with the page as a person would and prints what was seen. The page may be
// answered by the command or by itself.
const { chromium } = require('playwright-core');
const axe = require('axe-core');
const path = require('path');

const [address, folder, frame] = process.argv.slice(-3);
const time = 400000; // as long as awaits waits
const seen = { Errors: [], Abroad: [], Axe: [], Overlaps: [], Did: [], Lost: [] };

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] });
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

  const page = await open(address);
  await status(page, '^Solved: every');
  seen.Title = await page.title();
  await audit(page, 'solved');
  const first = await page.evaluate(() => ['space', 'feel', 'groups'].map((id) => document.getElementById(id).getBoundingClientRect()).every((r) => r.top < innerHeight && r.height > 100));
  did('station, torque and controls in the first screen', first);

  // Torque and station change while a control is dragged.
  const torque = await html(page, '#feel .plot-box');
  await drag(page, 'resistance.load.middle', 6, () => differs(page, '#feel .plot-box', torque));
  did('torque while dragging', true);
  await stopped(page);
  await question(page, 'What room it takes');
  const before = await html(page, '#head');
  await drag(page, 'posture.pivot_height.to', -18, () => differs(page, '#head', before));
  did('figures while dragging', true);
  await stopped(page);

  // By keyboard alone: a slider, Undo, Redo, the flexion on the plot, the station.
  const middle = control(page, 'resistance.load.middle', 'range'), number = control(page, 'resistance.load.middle', 'number');
  await page.locator('#reset').evaluate((b) => b.click());
  await status(page, '^Solved: every');
  await told(page);
  await middle.focus();
  const load = await number.inputValue();
  await page.keyboard.press('ArrowRight');
  did('slider by keyboard', await number.inputValue() !== load);
  await page.waitForFunction(() => location.hash.includes('resistance.load.middle='));
  await status(page, '^Solved');
  seen.Said = await page.evaluate(() => window.said.filter((s) => s !== 'Judged on the geometry at hand').length);
  await held(page, 'a slider');
  await page.locator('#undo').focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(([v]) => document.querySelector('.control[data-path="resistance.load.middle"] input[type=number]').value === v, [load]);
  await held(page, 'Undo');
  await page.locator('#redo').focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(([v]) => document.querySelector('.control[data-path="resistance.load.middle"] input[type=number]').value !== v, [load]);
  did('undo and redo', true);
  await status(page, '^(Solved|Judged)');
  await page.locator('#feel .field').focus();
  const read = await page.locator('#over').innerText();
  for (let i = 0; i < 9; i++) await page.keyboard.press('ArrowRight');
  did('values read out at the cursor', await page.locator('#over').innerText() !== read && Math.abs(Number(await page.locator('#flexion').inputValue()) - 14) < 0.6);
  did('cursor in the other plots', await page.locator('#plots svg .cursor').count() > 1);
  await page.locator('.play').focus();
  await page.keyboard.press('Enter');
  const at = await page.locator('#flexion').inputValue();
  await page.waitForFunction((a) => Math.abs(document.getElementById('flexion').value - a) > 2, at);
  await page.keyboard.press('Enter');
  did('played and stopped', await page.locator('.play').innerText() === 'Play');

  // What cannot be is said once, beside its control, and the last picture stays.
  await page.locator('#reset').evaluate((b) => b.click());
  await status(page, '^Solved: every');
  await page.locator('#keep').click();
  const good = await html(page, '#feel .plot-box');
  await control(page, 'resistance.load.light', 'number').fill('90');
  await page.locator('.control[data-path="resistance.load.light"] .fault').waitFor();
  seen.Fault = await page.locator('.control[data-path="resistance.load.light"] .fault').innerText();
  did('told once', await page.locator('#trouble').innerText() === '');
  did('last picture kept', (await html(page, '#feel .plot-box')) === good);
  await audit(page, 'with a fault');
  await control(page, 'resistance.load.light', 'number').fill('12');
  await page.waitForFunction(() => !document.querySelector('.fault'));
  did('fault forgiven', true);
  await page.locator('#reset').evaluate((b) => b.click());
  await status(page, '^Solved: every');

  // A brief that nothing meets, why, and a way out by one button.
  await control(page, 'space.length', 'number').fill('600');
  await control(page, 'space.length', 'number').press('Tab');
  await status(page, '^No station');
  seen.Conflict = await page.locator('#conflict').innerText();
  seen.Verdict = await page.locator('#verdict').innerText();
  await audit(page, 'infeasible');
  await page.locator('#keep').click();
  seen.Designs = await page.locator('#kept th[scope=col]').allInnerTexts();
  if (await page.locator('#repairs button').count()) {
    await page.locator('#repairs button').first().focus();
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector('#status').textContent !== 'No station meets all of this; see what conflicts');
    await status(page, '^(Solved|No station)');
    await held(page, 'Try this');
    did('tried a repair', await page.locator('#verdict .met').count() === 1);
  }
  await page.locator('#kept').getByRole('button', { name: 'Show Design 1' }).click();
  await page.waitForFunction(() => !location.hash.includes('space.length'));
  await page.locator('#verdict .met').waitFor();
  did('kept design laid over the torque', await page.locator('#feel path.kept').count() === 2);
  await page.reload();
  await status(page, '^Solved');
  did('kept designs stay', await page.locator('#kept th[scope=col]').count() === 2);

  // Search, units, the views drawn in lines.
  await page.locator('#find').fill('bearing');
  did('found', /^[1-9]\d* found$/.test(await page.locator('#found').innerText()) && await page.locator('.control[data-path="stock.bearing"]').isVisible() && !await page.locator('.control[data-path="space.length"]').isVisible());
  await page.locator('#find').fill('');
  await page.locator('#menu summary').click();
  await audit(page, 'menu');
  await page.locator('#units').selectOption('in');
  await page.waitForFunction(() => document.querySelector('.control[data-path="space.length"]').dataset.unit === 'in');
  did('inches', true);
  const [brief] = await Promise.all([page.waitForEvent('download'), page.locator('#save').click()]);
  await brief.saveAs(path.join(folder, 'brief.yaml'));
  await page.keyboard.press('Escape');
  await page.locator('#views summary').click();
  await page.locator('#views svg').nth(3).waitFor();
  did('views', true);

  // Persons of one's own table, seated by keyboard.
  await page.locator('#menu summary').click();
  await page.locator('#persons-file').setInputFiles({ name: 'crew.csv', mimeType: 'text/csv', buffer: Buffer.from('label,sex,stature_mm,mass_kg\nAda,woman,1640,66\nOle,man,1960,105\nBot,robot,1700,70\n') });
  await page.locator('#persons-list tr').nth(2).waitFor();
  await page.keyboard.press('Escape');
  seen.Persons = await page.locator('#persons').innerText();
  await page.locator('#persons-list button').nth(1).focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.getElementById('who').value === 'row 1' && document.querySelector('.fits.not'));
  seen.Away = await page.locator('.fits').innerText();
  await held(page, 'a person of the table');
  await audit(page, 'with persons');
  did('persons of a table', true);

  // Files.
  await page.locator('#make').click();
  const link = page.locator('#files button', { hasText: 'cut/cam.dxf' }).first();
  await link.waitFor();
  const [cut] = await Promise.all([page.waitForEvent('download'), link.click()]);
  await cut.saveAs(path.join(folder, 'cam.dxf'));
  seen.Files = await page.locator('#files button').allInnerTexts();
  await audit(page, 'with files');

  // The strength curve by hand.
  await page.locator('#hand').click();
  await page.locator('[data-at=hold-3]').focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowUp');
  await page.waitForFunction(() => location.hash.includes('resistance.curve_table=') && document.querySelector('.control[data-path="resistance.curve"] select').value === 'table');
  await stopped(page);
  did('curve by hand', await page.locator('.control[data-path="resistance.curve"] select').inputValue() === 'table');
  await held(page, 'the curve');

  // Another drive, without an error in between.
  await page.evaluate(() => { window.trouble = []; new MutationObserver(() => window.trouble.push(document.getElementById('trouble').textContent)).observe(document.getElementById('trouble'), { childList: true }); });
  await page.locator('.control[data-path="resistance.drive"] select').selectOption('lever');
  await page.locator('.control[data-path="resistance.lever_radius.to"]').waitFor();
  await stopped(page);
  await held(page, 'Stop searching');
  did('another drive in peace', (await page.evaluate(() => window.trouble.join(''))) === '');

  // An example, and a frame from a file; Back leads to what was before.
  await page.locator('#menu summary').click();
  await page.locator('#example').selectOption('cam-study');
  await page.waitForFunction(() => document.querySelector('#space #cam svg') && /^Solved/.test(document.getElementById('status').textContent));
  did('bench', !await page.locator('.control[data-path^="posture."]').count());
  await audit(page, 'bench');
  await page.locator('#file').setInputFiles(frame);
  await page.waitForFunction(() => document.querySelector('#space canvas') && /^(Solved|Judged)/.test(document.getElementById('status').textContent));
  did('frame opened', await page.locator('h1').innerText() === 'Reclined linkage station');

  // A view is shared by its address, seen at 390 px and at 200 %, by somebody
  // who asked for less motion.
  const shared = address + '#' + new URLSearchParams({ 'resistance.load.heavy': '70 kg' });
  const other = await open(shared, { viewport: { width: 390, height: 844 }, reducedMotion: 'reduce', colorScheme: 'dark' });
  await status(other, '^Solved');
  seen.Shared = [await control(other, 'resistance.load.heavy', 'number').inputValue(), await other.locator('.play').innerText()];
  const together = () => other.evaluate(() => { scrollTo(0, 400); return ['space', 'feel', 'groups'].map((id) => document.getElementById(id).getBoundingClientRect()).every((r) => r.top < innerHeight - 30 && r.bottom > 60); });
  did('together at 390 px', await together());
  await other.evaluate(() => scrollTo(0, 0)); // nothing beneath the part that stays
  await audit(other, '390 px, dark');
  seen.Overflow = [await other.evaluate(() => document.documentElement.scrollWidth - innerWidth)];
  await other.setViewportSize({ width: 640, height: 450 }); // 1280 x 900 at 200 %
  did('together at 200 %', await together());
  seen.Overflow.push(await other.evaluate(() => document.documentElement.scrollWidth - innerWidth));
  await other.evaluate(() => scrollTo(0, 0));
  await audit(other, '200 %');

  await browser.close();
  console.log(JSON.stringify(seen));
})().catch((e) => { console.error(e, JSON.stringify(seen)); process.exit(1); });
