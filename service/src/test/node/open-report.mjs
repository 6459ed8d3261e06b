// Opens a report page from disk in headless Chromium with the network cut, switches through its maps, prints it, and
// writes what happened to standard output as lines "key value". Arguments: page.html, folder for screenshots and PDF.
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { createHash } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';

const [page, folder] = process.argv.slice(2);
const { chromium } = createRequire(process.env.OUTSIDERS + '/')('playwright-core');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM,
  args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'],
});
try {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, offline: true });
  const tab = await context.newPage();
  const say = (key, value) => console.log(key, String(value).replaceAll('\n', ' '));
  tab.on('console', message => { if (message.type() === 'error') say('console', message.text()); });
  tab.on('pageerror', error => say('console', 'exception ' + error.message));
  tab.on('request', request => { if (!/^(file|data|blob):/.test(request.url())) say('request', request.url()); });
  tab.on('requestfailed', request => say('failed', request.url().slice(0, 100)));
  await tab.goto(pathToFileURL(page).href);
  await tab.waitForFunction(() => document.documentElement.dataset.view === 'ready', null, { timeout: 60000 });
  say('variants', await tab.evaluate(() => document.getElementById('model').availableVariants.join('|')));
  const labels = await tab.locator('.maps button').allTextContents();
  const settle = () => tab.waitForTimeout(700);
  const shot = async name => {
    await settle();
    const png = await tab.locator('#model').screenshot();
    await writeFile(join(folder, name + '.png'), png);
    say('shot', name + ' ' + createHash('sha256').update(png).digest('hex'));
  };
  for (const [i, label] of labels.entries()) {
    await tab.locator('.maps button').nth(i).click();
    say('variant', await tab.evaluate(() => document.getElementById('model').variantName));
    say('legends', await tab.locator('.legend:visible').count());
    await shot('map' + i);
  }
  const orbit = () => tab.evaluate(() => document.getElementById('model').getCameraOrbit().toString());
  const before = await orbit();
  const box = await tab.locator('#model').boundingBox();
  await tab.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await tab.mouse.down();
  await tab.mouse.move(box.x + box.width / 2 + 180, box.y + box.height / 2 + 40, { steps: 8 });
  await tab.mouse.up();
  await settle();
  say('turned', before !== await orbit());
  await shot('turned');
  say('bars', await tab.locator('.plot svg path[fill="#2e7f87"], .plot svg path[fill="#b8622f"]').count());
  say('plotHeight', Math.round((await tab.locator('.plot').first().boundingBox()).height));
  say('fits', await tab.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth));
  await tab.screenshot({ path: join(folder, 'page.png'), fullPage: true });
  await writeFile(join(folder, 'report.pdf'), await tab.pdf({ preferCSSPageSize: true, printBackground: true }));
  const phone = await context.newPage();
  await phone.setViewportSize({ width: 390, height: 800 });
  await phone.goto(pathToFileURL(page).href);
  say('phone', await phone.evaluate(() => document.documentElement.scrollWidth <= 390));
  await phone.screenshot({ path: join(folder, 'phone.png') });
} finally {
  await browser.close();
}
