// SPDX-License-Identifier: GPL-3.0-or-later
/* How long it takes from a change of a value to the picture of it, in the browser: the demo job, one dimension dragged step by step.
 *     node bench/page.mjs BUILD/tuskwright [JOB]
 * Each step: the grip is moved by a key; the clock runs from the key to the first frame after the new drawing stands on the page. Beside it
 * stands what the program itself took, and a frame of a page that does nothing, which is the least there can be. */
import { browser, openPage, root, scratch, serve } from '../tests/page/harness.mjs';
import { join } from 'node:path';

const STEPS = 120,
    WARM = 20;
const place = await scratch();
const program = await serve(place.book, process.argv[3] ?? join(root, 'examples/reading-table/job.yaml'));
const chrome = await browser();
const page = await openPage(chrome, program.address);
await page.waitForURL(/#\/job\//);
const mark = page.locator('figure[data-what="piece"] svg [data-from$="/width"]').first();
await mark.scrollIntoViewIfNeeded();
await mark.click();
await page.locator('.bar .grip').waitFor();

const took = await page.evaluate(
    async ({ steps }) => {
        const grip = document.querySelector('.bar .grip'),
            figure = [...document.querySelectorAll('figure[data-what="piece"]')].find((one) => one.querySelector('svg'));
        const frame = () => new Promise((done) => requestAnimationFrame(() => done(performance.now())));
        const idle = [];
        for (let i = 0; i < 30; i++) {
            const from = performance.now();
            idle.push((await frame()) - from);
        }
        const list = [];
        for (let i = 0; i < steps; i++) {
            const drawn = new Promise((done) => {
                const seen = new MutationObserver(() => {
                    seen.disconnect();
                    done(performance.now());
                });
                seen.observe(figure, { childList: true });
            });
            await frame();
            const from = performance.now();
            grip.dispatchEvent(
                new KeyboardEvent('keydown', { key: i % 40 < 20 ? 'ArrowRight' : 'ArrowLeft', bubbles: true, cancelable: true }),
            );
            const placed = await drawn,
                shown = await frame();
            list.push({
                placed: placed - from,
                shown: shown - from,
                core: Number(document.documentElement.dataset.tookUs) / 1000,
            });
        }
        return { idle, list };
    },
    { steps: STEPS },
);
const at = (list, share) =>
    [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(share * list.length))].toFixed(1);
const warm = took.list.slice(WARM);
console.log(`a frame of a page that does nothing: median ${at(took.idle, 0.5)} ms`);
for (const [key, words] of [
    ['core', 'the program'],
    ['placed', 'from the key to the drawing on the page'],
    ['shown', 'from the key to the frame that shows it'],
]) {
    const list = warm.map((one) => one[key]);
    console.log(`${words}: median ${at(list, 0.5)} ms, nine in ten under ${at(list, 0.9)} ms, slowest ${at(list, 1)} ms`);
}
await chrome.close();
await program.stop();
await place.gone();
