// SPDX-License-Identifier: GPL-3.0-or-later
/* The 3D view by itself: its bundle, the bodies of an example job, and the policy that the program serves its page under.
 *     node tests/page/solid.mjs BUILD/page BUILD/tests/solids_dump
 * What is seen is held to what is known otherwise: places under the pointer to the poses that the core gave, cut wood to the
 * sections that the core reckons along the fibres, volumes to sums of slices. */
import { execFile } from 'node:child_process';
import { readFile, readdir } from 'node:fs/promises';
import { createServer } from 'node:http';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { axePath, browser, cases, must, openPage, root, same, scratch, shot, sizes } from './harness.mjs';

const [bundles, dump] = process.argv.slice(2).map((path) => resolve(path));
const require = createRequire(join(root, 'page/package.json')), { build } = require('esbuild');
const { chromium } = require('playwright-core');
const serving = join(root, 'src/serve'), sources = (await readdir(serving)).filter((name) => name.endsWith('.c'));
const door = (await Promise.all(sources.map((name) => readFile(join(serving, name), 'utf8')))).join('');
const texts = [...door.matchAll(/#define \w+ ((?:"[^"\n]*"[ \\\n]*)+)/g)].map(([, text]) => text)
    .find((text) => text.includes('script-src')) ?? '';
const policy = [...texts.matchAll(/"([^"]*)"/g)].map(([, part]) => part).join('');
const told = {};
for (const [name, path] of [['table', 'examples/reading-table/job.yaml'], ['short', 'tests/outside/short-grain.yaml'],
    ['foot', 'examples/shaped-foot/job.yaml']])
    told[name] = JSON.parse((await promisify(execFile)(dump, [join(root, path)], { maxBuffer: 1 << 26 })).stdout);

/* ---- a server that gives the bundle, and a page that opens the view ---- */

const tryPage = `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
<title>Bodies</title><link rel="icon" href="data:,"><link rel="stylesheet" href="/page.css">
<script type="module" src="/try.js"></script></head>
<body><main><h1>Bodies</h1><div id="host"></div></main></body></html>`;
const tryScript = `import { openSolid } from '/solid.js';
window.picks = [];
window.frames = 0;
const frame = window.requestAnimationFrame.bind(window);
window.requestAnimationFrame = (run) => frame((now) => { window.frames += 1; run(now); });
window.view = openSolid(document.getElementById('host'), { picked: (spot) => window.picks.push(spot) });
window.give = async (name) => window.view.update(await (await fetch('/' + name + '.json')).json());
await window.give(location.search.slice(1) || 'table');
window.ready = true;`;
const types = { js: 'text/javascript', css: 'text/css', wasm: 'application/wasm', json: 'application/json',
    html: 'text/html; charset=utf-8' };

async function answerTo(path) {
    if (path === '/') return tryPage;
    if (path === '/try.js') return tryScript;
    const job = /^\/(\w+)\.json$/.exec(path)?.[1];
    if (job) return JSON.stringify(told[job].solids);
    return readFile(join(bundles, path.slice(1)));
}
const server = createServer(async (request, response) => {
    const path = new URL(request.url, 'http://here').pathname;
    try {
        const body = await answerTo(path);
        response.writeHead(200, { 'Content-Type': path === '/' ? types.html : types[path.split('.').pop()],
            'Content-Security-Policy': policy }).end(body);
    } catch {
        response.writeHead(404).end();
    }
});
await new Promise((done) => server.listen(0, '127.0.0.1', done));
const address = `http://127.0.0.1:${server.address().port}/`, chrome = await browser(), { folder, gone } = await scratch();

async function opened(job = 'table', options = {}) {
    const page = await openPage(chrome, `${address}?${job}`, options);
    await page.waitForFunction(() => window.ready);
    await settled(page);
    return page;
}
/** No frame has been asked for a while. */
async function settled(page) {
    await page.waitForFunction(async () => {
        const before = window.frames;
        await new Promise((done) => setTimeout(done, 60));
        return window.frames === before;
    });
}
async function pictureOf(page) {
    await settled(page);
    return (await page.locator('canvas').screenshot()).toString('base64');
}
async function changes(page, words, act, does = true) {
    const before = await pictureOf(page);
    await act();
    must((await pictureOf(page) !== before) === does, `${words}: the picture ${does ? 'stays the same' : 'changes'}`);
}
async function closed(page) {
    same(page.faults.join('; '), '', 'faults in the page');
    await page.context().close();
}

/* ---- the page's own modules, in node ---- */

async function moduleOf(name) {
    const outfile = join(folder, `${name}.mjs`);
    await build({ entryPoints: [join(root, `page/src/${name}.ts`)], outfile, bundle: true, format: 'esm', platform: 'node',
        logLevel: 'error' });
    return import(pathToFileURL(outfile));
}
const { readSolids, goneBy } = await moduleOf('solid_data'), { Sections } = await moduleOf('solid_section');
const sections = await Sections.begin(join(bundles, 'manifold.wasm'));

function areaOf({ triangles }) {
    let area = 0;
    for (let i = 0; i < triangles.length; i += 9) {
        const [a, b, c] = [0, 3, 6].map((k) => triangles.subarray(i + k, i + k + 3)), u = b.map((n, k) => n - a[k]),
            v = c.map((n, k) => n - a[k]);
        area += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    }
    return area;
}
const pieces = Object.values(told).flatMap(({ solids, job }) => readSolids(solids).kinds.filter((kind) => kind.piece)
    .map((kind) => ({ kind, told: job.pieces.find((one) => one.name === kind.piece) })));

/* ---- where things are on the canvas ---- */

/** Seen square on, one mm of the axis to the right and of the one up is so many pixels, the middle of the whole in the middle of
 *  the canvas. */
async function squareView(page, name, size, up) {
    await page.getByRole('button', { name }).click();
    await settled(page);
    const box = await page.locator('canvas').boundingBox(),
        half = 1.06 * Math.max(size[up] / 2, size[0] / 2 / (box.width / box.height));
    const scale = box.height / 2 / half;
    return (spot) => ({ x: box.x + box.width / 2 + (spot[0] - size[0] / 2) * scale,
        y: box.y + box.height / 2 - (spot[up] - size[up] / 2) * scale });
}
/** Where a place of a thing's own frame is, and the other way round, by the matrix that the core gave. */
function placeOf({ matrix }, own) {
    return [0, 1, 2].map((k) => matrix[9 + k] + own.reduce((sum, n, axis) => sum + n * matrix[3 * axis + k], 0));
}
function inPiece(matrix, spot) {
    const by = spot.map((n, k) => n - matrix[9 + k]);
    return [0, 1, 2].map((axis) => by.reduce((sum, n, k) => sum + n * matrix[3 * axis + k], 0));
}

await cases({
    'the policy of the program is read, and forbids what it should': async () => {
        must(policy.includes("script-src 'self' 'wasm-unsafe-eval'") && policy.includes("style-src 'self'")
            && !policy.includes("'unsafe-eval'"), policy);
    },

    'what is no answer is refused in words': async () => {
        for (const bad of [null, {}, { kinds: [] }, 'text']) {
            let words = '';
            try { readSolids(bad); } catch (fault) { words = fault.message; }
            must(words.includes('no bodies'), `${JSON.stringify(bad)}: ${words}`);
        }
    },

    'moves add up step by step, the last in part': async () => {
        const stood = { moves: [{ step: 2, by: [10, 0, 0] }, { step: 4, by: [0, -6, 2] }] };
        for (const [steps, wanted] of [[0, [0, 0, 0]], [1, [0, 0, 0]], [1.5, [5, 0, 0]], [2, [10, 0, 0]], [3.5, [10, -3, 1]],
            [4, [10, -6, 2]], [9, [10, -6, 2]]])
            same(goneBy(stood, steps).join(), wanted.join(), `after ${steps} steps`);
    },

    'cut wood has the area of the weakest section that the core finds along the fibres': async () => {
        must(pieces.length >= 9, `only ${pieces.length} pieces`);
        for (const { kind, told: { weakest_section: weakest } } of pieces) {
            // a wall may stand just there: a hair to its left or right
            const areas = [-0.01, 0, 0.01].map((by) => areaOf(sections.cut(kind, [1, 0, 0], weakest.from_left_end_mm + by)));
            must(Math.min(...areas) <= weakest.area_mm2 * 1.002 + 1 && Math.max(...areas) >= weakest.area_mm2 * 0.998 - 1,
                `${kind.name}: ${areas}, the core says ${weakest.area_mm2}`);
        }
    },

    'slices add up to the volume that the core sums from the fibres': async () => {
        const SLICES = 80;
        for (const { kind, told: { volume_mm3: volume } } of pieces)
            for (const axis of [0, 1, 2]) {
                const normal = [0, 0, 0], step = kind.size[axis] / SLICES;
                normal[axis] = axis === 1 ? -1 : 1;   // the same from either side
                let sum = 0;
                for (let i = 0; i < SLICES; i += 1)
                    sum += areaOf(sections.cut(kind, normal, normal[axis] * (i + 0.5) * step)) * step;
                must(Math.abs(sum - volume) < 0.012 * volume, `${kind.name}, axis ${axis}: ${sum}, the core says ${volume}`);
            }
    },

    'the outline of cut wood is closed': async () => {
        for (const { kind } of pieces) {
            const { outline } = sections.cut(kind, [0.6, 0.64, 0.48],
                0.6 * kind.size[0] / 2 + 0.64 * kind.size[1] / 2 + 0.48 * kind.size[2] / 2), ends = new Map();
            must(outline.length >= 18, `${kind.name}: no outline`);
            for (let i = 0; i < outline.length; i += 3) {
                const key = outline.subarray(i, i + 3).join();
                ends.set(key, (ends.get(key) ?? 0) + 1);
            }
            must([...ends.values()].every((count) => count % 2 === 0), `${kind.name}: an end hangs loose`);
        }
    },

    'a skin that does not close gives no cut wood, and says so': async () => {
        const [{ kind }] = pieces;
        same(sections.cut({ ...kind, closed: false }, [1, 0, 0], 10), null, 'not closed');
        same(sections.cut({ ...kind, triangles: kind.triangles.slice(3) }, [1, 0, 0], 10), null, 'a triangle is missing');
        same(areaOf(sections.cut(kind, [1, 0, 0], -5)), 0, 'the plane passes by');
    },

    'the bodies are drawn, and nothing is drawn again while nothing changes': async () => {
        const page = await opened();
        const before = await page.evaluate(() => window.frames);
        await page.waitForTimeout(700);
        same(await page.evaluate(() => window.frames), before, 'frames drawn in peace');
        await shot(page, 'solid-corner');
        await changes(page, 'nothing left to be seen', () => page.getByRole('button', { name: 'Hide all' }).click());
        await closed(page);
    },

    'arrow keys, buttons, wheel and pointer turn and move it': async () => {
        const page = await opened(), canvas = page.locator('canvas'), box = await canvas.boundingBox();
        await canvas.focus();
        for (const key of ['ArrowLeft', 'ArrowUp', '+', '-', 'Shift+ArrowRight', '0'])
            await changes(page, key, () => page.keyboard.press(key));
        await changes(page, 'a letter', () => page.keyboard.press('x'), false);
        for (const name of ['Front', 'Right side', 'Back', 'Above', 'Corner', 'Nearer', 'Whole'])
            await changes(page, name, () => page.getByRole('button', { name, exact: true }).click());
        await page.mouse.move(box.x + 200, box.y + 200);
        await changes(page, 'dragging', async () => {
            await page.mouse.down();
            await page.mouse.move(box.x + 260, box.y + 230, { steps: 4 });
            await page.mouse.up();
        });
        same(await page.evaluate(() => window.picks.length), 0, 'places pointed at by dragging');
        await canvas.focus();
        await changes(page, 'the wheel', () => page.mouse.wheel(0, -300));
        await closed(page);
    },

    'the wheel goes nearer to what lies under the pointer': async () => {
        const page = await opened(), { solids } = told.table, place = await squareView(page, 'Front', solids.size, 2);
        const foot = solids.stood.find((one) => one.name === 'foot 2'), { size } = solids.kinds[foot.kind];
        const { x, y } = place(placeOf(foot, size.map((n) => n / 2)));
        await page.locator('canvas').focus();
        await page.mouse.move(x, y);
        const under = page.locator('.solid-hover'), before = await under.textContent();
        must(before.startsWith('foot'), before);
        await changes(page, 'the wheel', () => page.mouse.wheel(0, -1200));
        await page.mouse.move(x + 0.4, y);
        same(await under.textContent(), before, 'what lies under the pointer');
        await page.mouse.click(x, y);
        const [pick] = await page.evaluate(() => window.picks);
        same(pick?.piece, 'foot', 'the piece that was clicked');
        must(pick.face.includes('end') || Math.abs(pick.at - size[0] / 2) < 10, `at ${pick.at} of ${size[0]}`);
        await closed(page);
    },

    'two fingers go nearer, one finger aside turns, one up and down scrolls the page': async () => {
        const page = await opened('table', { viewport: sizes.phone, hasTouch: true, isMobile: true });
        const fingers = await page.context().newCDPSession(page);
        const box = await page.locator('canvas').boundingBox(), middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        const drag = async (...ways) => {   // each finger: from where, by how much
            const place = (part, [x, y, dx, dy], id) => ({ x: middle.x + x + part * dx, y: middle.y + y + part * dy, id });
            const at = (part) => ways.map((way, id) => place(part, way, id));
            await fingers.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
            for (let i = 1; i <= 8; i += 1)
                await fingers.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(i / 8) });
            await fingers.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
        };
        await changes(page, 'two fingers', () => drag([-30, 0, -50, 0], [30, 0, 50, 0]));
        await changes(page, 'one finger aside', () => drag([0, 0, 90, 0]));
        same(await page.evaluate(() => window.scrollY), 0, 'scrolled so far');
        await drag([0, 0, 0, -150]);
        await page.waitForFunction(() => window.scrollY > 50);
        same(await page.evaluate(() => window.picks.length), 0, 'places pointed at');
        await closed(page);
    },

    'the slider takes it apart in the order and the words of the core': async () => {
        const page = await opened(), slider = page.getByLabel('Taken apart'), { steps } = told.table.solids;
        same(await slider.getAttribute('max'), String(steps.length), 'steps on the slider');
        for (const [i, step] of steps.entries()) {
            await changes(page, `step ${i + 1}`, () => page.getByRole('button', { name: 'One step on' }).click());
            const words = `Step ${step.number} of ${steps.length}: ${step.words}.`;
            same(await page.locator('.solid-step').textContent(), words, 'words of the step');
            same(await slider.getAttribute('aria-valuetext'), words, 'words of the slider');
            must((await page.locator('canvas').getAttribute('aria-label')).includes(words), 'the canvas does not say it');
        }
        await shot(page, 'solid-apart');
        await changes(page, 'beyond the last step', () => page.getByRole('button', { name: 'One step on' }).click(), false);
        await changes(page, 'a part of a step', () => slider.press('ArrowLeft'));
        await page.getByRole('button', { name: 'Together' }).click();
        same(await page.locator('.solid-step').textContent(), 'As it stands.', 'words at home');
        await closed(page);
    },

    'a job that does not come apart has no such slider': async () => {
        const page = await opened('foot');
        must(await page.getByLabel('Taken apart').isHidden(), 'it is there');
        await closed(page);
    },

    'a plane cuts it open on each axis and from both sides': async () => {
        const page = await opened(), depth = page.getByLabel('How far through');
        must(await depth.isHidden(), 'the slider is there without a plane');
        for (const axis of ['0', '1', '2']) {
            await changes(page, `axis ${axis}`, async () => {
                await page.getByLabel('Cut open').selectOption(axis);
                await page.waitForTimeout(axis === '0' ? 1500 : 0);   // the wasm is fetched
            });
            await changes(page, 'the slider', () => depth.press('PageUp'));
            await changes(page, 'the other side', () => page.getByLabel('keep the other side').check());
            await page.getByLabel('keep the other side').uncheck();
        }
        const words = await depth.getAttribute('aria-valuetext');
        must(/^\d+ % of the way from top to bottom; the bottom is kept$/.test(words), words);
        await shot(page, 'solid-section');
        await changes(page, 'no plane', () => page.getByLabel('Cut open').selectOption(''));
        await closed(page);
    },

    'short grain is shown, told in the words of the core, and can be left out': async () => {
        const page = await opened('short'), words = told.short.solids.kinds.flatMap((kind) =>
            kind.short.map((one) => `${kind.name}: ${one.words}`));
        must(words.length >= 2, 'the job has none');
        same((await page.locator('.solid-short li').allTextContents()).join('\n'), words.join('\n'), 'the list');
        await shot(page, 'solid-short');
        await changes(page, 'left out', () => page.getByRole('checkbox', { name: 'Short grain' }).uncheck());
        await closed(page);
        const without = await opened();
        must(await without.getByRole('checkbox', { name: 'Short grain' }).isDisabled(), 'there is none to show');
        await closed(without);
    },

    'a click says which face of which piece, and where': async () => {
        const page = await opened(), { solids } = told.table, place = await squareView(page, 'Front', solids.size, 2);
        const stretcher = solids.stood.find((one) => one.name === 'stretcher 1'), kind = solids.kinds[stretcher.kind];
        // the middle of the stretcher, a quarter of its length on, by the pose that the core gave
        const share = [0.25, 0.5, 0.5], at = placeOf(stretcher, kind.size.map((n, k) => n * share[k])), { x, y } = place(at);
        await page.mouse.click(x, y);
        const [pick] = await page.evaluate(() => window.picks), mm = 1.5 * solids.size[0] / 700;
        must(pick && pick.piece === 'stretcher', `pointed at ${JSON.stringify(pick)}`);
        const taken = solids.stood.find((one) => one.name === `stretcher ${pick.number}`),
            there = inPiece(taken.matrix, [at[0], 0, at[2]]);
        must(Math.abs(pick.at - there[0]) < mm, `at ${pick.at}, wanted ${there[0]}`);
        const across = pick.face.includes('edge') ? there[2] : there[1];
        must(Math.abs(pick.across - across) < mm, `across ${pick.across}, wanted ${across}`);
        // the face that looks at the reader, who stands at -y
        const outs = { face: [2, 1], back: [2, -1], 'face edge': [1, -1], 'back edge': [1, 1], 'left end': [0, -1],
            'right end': [0, 1] }, [axis, way] = outs[pick.face];
        must(way * taken.matrix[3 * axis + 1] < -0.99, `${pick.face} looks elsewhere`);
        same(pick.cut, '', 'a side of the piece');
        must((await page.locator('.solid-told').textContent()).startsWith(`Pointed at stretcher ${pick.number}, ${pick.face}`),
            'it is told');
        await page.mouse.click(place([-20, 0, 0]).x, place([0, 0, solids.size[2] / 2]).y);
        same(await page.evaluate(() => window.picks.length), 1, 'places pointed at beside the bodies');
        await closed(page);
    },

    'a click into a cut says whose it is': async () => {
        const page = await opened('short'), { solids } = told.short, side = solids.stood.find((one) => one.name === 'side 1'),
            bottom = placeOf(side, [14, 60, 12]);
        const place = await squareView(page, 'Above', solids.size, 1), { x, y } = place(bottom);
        must(Math.abs(side.matrix[8]) > 0.99, 'the side does not lie flat');
        await page.mouse.move(x, y);
        await page.waitForFunction(() =>
            document.querySelector('.solid-hover').textContent === 'side 1: the housing of shelf to side');
        await page.mouse.click(x, y);
        const [pick] = await page.evaluate(() => window.picks);
        same(`${pick?.piece}, ${pick?.face}: ${pick?.cut}`, 'side, face: the housing of shelf to side', 'what was pointed at');
        same(await page.getByLabel('On its').locator('option:checked').textContent(), 'face', 'the form');
        await closed(page);
    },

    'the same place can be pointed at by the list and the keyboard alone': async () => {
        const page = await opened();
        await page.getByRole('button', { name: 'post 2', exact: true }).focus();
        await changes(page, 'choosing', () => page.keyboard.press('Enter'));
        await page.getByLabel('On its').selectOption('back edge');
        await page.getByLabel(/From the left end/).fill('20');
        await page.getByLabel(/From the back/).fill('75');
        await page.getByRole('button', { name: 'Point here' }).press('Enter');
        const [pick] = await page.evaluate(() => window.picks),
            size = told.table.solids.kinds.find((kind) => kind.piece === 'post').size;
        same(JSON.stringify(pick), JSON.stringify({ piece: 'post', number: 2, face: 'back edge', at: 0.2 * size[0],
            across: 0.75 * size[2], cut: '' }), 'the place');
        await shot(page, 'solid-pointed');
        await closed(page);
    },

    'a plane along a side of a piece leaves that side whole': async () => {
        // 20 thick, as high as half of the bridge's 40
        const page = await opened('short'), shelf = page.getByLabel('Show shelf');
        for (const name of ['Show side 1', 'Show side 2', 'Show bridge']) await page.getByLabel(name).uncheck();
        await page.getByRole('button', { name: 'Above' }).click();
        await changes(page, 'kept below', async () => {
            await page.getByLabel('Cut open').selectOption('2');
            await page.waitForTimeout(1200);
        }, false);
        await changes(page, 'kept above', () => page.getByLabel('keep the other side').check());
        await changes(page, 'hiding what is not there', () => shelf.uncheck(), false);
        await closed(page);
    },

    'pieces can be hidden, and stay so when the job changes': async () => {
        const page = await opened();
        await changes(page, 'hiding', () => page.getByLabel('Show post 1').uncheck());
        await changes(page, 'the same job again', () => page.evaluate(() => window.give('table')), false);
        must(!(await page.getByLabel('Show post 1').isChecked()), 'it is shown again');
        await changes(page, 'showing all', () => page.getByRole('button', { name: 'Show all' }).click());
        await changes(page, 'another job', () => page.evaluate(() => window.give('short')));
        await closed(page);
    },

    'no violations for axe, in light and in dark, with a piece chosen and cut open': async () => {
        for (const colorScheme of ['light', 'dark']) {
            const page = await opened('short', { colorScheme });
            await page.getByRole('button', { name: 'side 1', exact: true }).click();
            await page.getByLabel('Cut open').selectOption('2');
            await page.evaluate(await readFile(axePath, 'utf8'));
            const { violations } = await page.evaluate(() => window.axe.run());
            same(violations.map((one) => `${one.id}: ${one.nodes[0].html}`).join('\n'), '', colorScheme);
            await shot(page, `solid-${colorScheme}`);
            await closed(page);
        }
    },

    'it fits a phone, and reads the colours anew when it turns dark': async () => {
        const page = await opened('table', { viewport: sizes.phone, deviceScaleFactor: 2, hasTouch: true });
        const fits = () => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);
        must(await fits(), 'it scrolls aside');
        await changes(page, 'turning dark', () => page.emulateMedia({ colorScheme: 'dark' }));
        await page.setViewportSize({ width: 700, height: 360 });   // lying, or a desk's screen at 200 %
        await settled(page);
        must(await fits(), 'it scrolls aside, lying');
        const [width, ratio] = await page.locator('canvas').evaluate((canvas) =>
            [canvas.width / canvas.clientWidth, window.devicePixelRatio]);
        must(Math.abs(width - Math.min(2, ratio)) < 0.02, `${width} pixels for each, the screen has ${ratio}`);
        await shot(page, 'solid-phone-whole');
        await closed(page);
    },

    'on paper a picture stands for the canvas': async () => {
        const page = await opened();
        await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
        await page.emulateMedia({ media: 'print' });
        must(await page.locator('canvas').isHidden() && await page.locator('.solid-right').isHidden(),
            'what cannot be used on paper is there');
        const [wide, alt] = await page.locator('.solid-printed img').evaluate(async (image) => {
            await image.decode();
            return [image.naturalWidth, image.alt];
        });
        must(wide > 300 && alt.includes('8 pieces'), `${wide} wide, told as ${alt}`);
        await closed(page);
    },

    'closing gives the memory of the graphics back, and opens again': async () => {
        const page = await opened(), lost = page.evaluate(() => {
            const canvas = document.querySelector('canvas');
            return new Promise((done) => {
                canvas.addEventListener('webglcontextlost', () => done(true));
                window.view.close();
                setTimeout(() => done(false), 3000);
            });
        });
        same(await lost, true, 'the context is given back');
        same(await page.locator('#host').evaluate((host) => host.childElementCount), 0, 'what is left in the page');
        for (let i = 0; i < 20; i += 1) await page.evaluate(async () => {
            const { openSolid } = await import('/solid.js');
            window.view = openSolid(document.getElementById('host'));
            await window.give('table');
            window.view.close();
        });
        await page.evaluate(async () => { window.view.update({ kinds: [], stood: [], steps: [] }); });
        same(await page.locator('canvas').count(), 0, 'canvases left');
        await closed(page);
    },

    'a browser without WebGL is told so in words': async () => {
        const bare = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
            args: ['--no-sandbox', '--disable-dev-shm-usage', '--disable-3d-apis'] });
        const page = await (await bare.newContext()).newPage();
        await page.goto(address);
        await page.waitForFunction(() => window.ready);
        must((await page.locator('#host').textContent()).includes('WebGL is missing'), 'nothing is said');
        await page.evaluate(() => window.view.close());
        await bare.close();
    },
}, async () => {
    await chrome.close();
    server.close();
    await gone();
});
