// Plays with the page as a person would and prints what was seen.
played(async () => {
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
  await saves(page.locator('#save'), 'brief.yaml');
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
  await makes(page);
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
  const asked = await page.evaluate(() => new Promise((done) => {
    let n = 0;
    const ask = requestAnimationFrame;
    window.requestAnimationFrame = (f) => { n++; return ask(f); };
    setTimeout(() => { window.requestAnimationFrame = ask; done(n); }, 1000);
  }));
  did('the bench at rest', asked < 5);
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
});
