// SPDX-License-Identifier: GPL-3.0-or-later
/* Makes the pictures of the page in docs/pictures anew, from the program itself with the reading table:
 *     node scripts/page-pictures.mjs [BUILD/tuskwright]
 * Needs Chromium (scripts/setup test). Not part of the build or the tests. */
import { join } from 'node:path';
import { browser, openPage, root, scratch, serve, sizes } from '../tests/page/harness.mjs';

const place = await scratch();
const program = await serve(place.book, join(root, 'examples/reading-table/job.yaml'));
const chrome = await browser();
const page = await openPage(chrome, program.address);
const to = async (name) => {
    await page.waitForTimeout(600);
    await page.screenshot({ path: join(root, `docs/pictures/${name}.png`), caret: 'initial' });
};
await page.waitForURL(/#\/job\//);
const base = page.url().replace(/#.*/, '');

const joint = page.locator('#joint-stretcher-to-post');
await joint.scrollIntoViewIfNeeded();
await joint.locator('svg [data-from]').first().waitFor();
await joint.evaluate((one) => {
    one.scrollIntoView();
    window.scrollBy(0, -110);
});
await joint.getByRole('button', { name: /^tenon width: / }).click();
await to('desk');
await page.keyboard.press('Escape');

await page.evaluate(() => window.scrollTo(0, 0));
await page.getByRole('button', { name: 'Turn it' }).click();
await page.locator('.solid-host canvas').waitFor();
await page.getByRole('button', { name: 'All apart' }).click();
await to('turn');

const cards = await page.evaluate(async () => {
    const entry = await (await fetch('/api/entry?shelf=jobs&id=1')).json();
    const { model } = await (
        await fetch('/api/reckon', {
            method: 'POST',
            headers: { 'Content-Type': 'application/json' },
            body: JSON.stringify({ text: entry.text, shop: entry.shop, model: true }),
        })
    ).json();
    return model.steps.filter((one) => one.card && one.card.settings.length >= 3).map((one) => one.number);
});
await page.setViewportSize({ width: 412, height: 900 });
await page.goto(`${base}#/job/1/run/${cards.at(-1)}`);
await page
    .locator('.figure')
    .first()
    .evaluate((one) => {
        one.scrollIntoView();
        window.scrollBy(0, -180);
    });
await to('machine');
await page.setViewportSize(sizes.tablet);
await page.reload();
await to('tablet');
await page.setViewportSize(sizes.desk);
await page.goto(`${base}#/`);
await to('book');
await chrome.close();
await program.stop();
await place.gone();
