// Plays with the page that answers itself: everything that its two programs do, once.
played(async () => {
  const page = await open(address);
  await status(page, '^Solved: every');
  seen.Title = await page.title();
  await audit(page, 'solved');

  // The program answers while a control is dragged, and a search ends when it is told to.
  const torque = await html(page, '#feel .plot-box');
  await drag(page, 'resistance.load.middle', 6, () => differs(page, '#feel .plot-box', torque));
  did('torque while dragging', true);
  await stopped(page);
  await page.locator('#undo').click();
  await page.waitForFunction(() => !location.hash.includes('resistance.load.middle'));
  await status(page, '^Solved: every');
  did('undo', true);

  // The other program draws the views and makes the files.
  await page.locator('#views summary').click();
  await page.locator('#views svg').nth(0).waitFor();
  did('views', true);
  await makes(page);

  // The brief is saved, a frame opened, the bench shown.
  await page.locator('#menu summary').click();
  await saves(page.locator('#save'), 'brief.yaml');
  await page.locator('#file').setInputFiles(frame);
  await page.waitForFunction(() => document.querySelector('h1').innerText === 'Reclined linkage station' && /^(Solved|Judged)/.test(document.getElementById('status').textContent));
  did('frame opened', true);
  await page.locator('#example').selectOption('cam-study');
  await page.waitForFunction(() => document.querySelector('#space #cam svg') && /^Solved/.test(document.getElementById('status').textContent));
  did('bench', true);
});
