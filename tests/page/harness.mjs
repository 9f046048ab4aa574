// SPDX-License-Identifier: GPL-3.0-or-later
/* harness: the real program on a book of its own, Chromium as Debian has it, and cases told as TAP.
 *     node tests/page/NAME.mjs BUILD/tuskwright
 * SHOTS=DIR keeps screenshots there. */
import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const require = createRequire(join(root, 'page/package.json'));
const { chromium } = require('playwright-core');
export const axePath = require.resolve('axe-core/axe.min.js');

export const sizes = {
    phone: { width: 360, height: 740 },
    tablet: { width: 820, height: 1180 },
    desk: { width: 1440, height: 900 },
    wall: { width: 3840, height: 2160 },
};
const program = resolve(process.argv[2] ?? join(root, 'build/tuskwright'));

/** Starts `tuskwright serve` with the arguments; gives its address, and ways to end it. */
export async function serve(book, ...more) {
    const child = spawn(program, ['serve', '--book', book, ...(more.includes('--port') ? [] : ['--port', '0']), ...more], {
        stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '',
        err = '';
    child.stderr.on('data', (bytes) => {
        err += bytes;
    });
    const ended = new Promise((done) => child.on('exit', (code, signal) => done({ code, signal })));
    const address = await new Promise((done, fail) => {
        child.stdout.on('data', (bytes) => {
            out += bytes;
            if (out.includes('\n')) done(out.split('\n')[0]);
        });
        ended.then(({ code }) => fail(new Error(`serve ended with ${code}: ${err}`)));
    });
    return {
        address,
        origin: new URL(address).origin,
        stop: async () => {
            child.kill('SIGTERM');
            return ended;
        },
        kill: async () => {
            child.kill('SIGKILL');
            return ended;
        },
        told: () => err,
        printed: () => out,
    };
}

export async function scratch() {
    const folder = await mkdtemp(join(tmpdir(), 'tuskwright-page-'));
    return { folder, book: join(folder, 'book'), gone: () => rm(folder, { recursive: true, force: true }) };
}

export async function browser() {
    return chromium.launch({
        executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
        args: ['--no-sandbox', '--enable-unsafe-swiftshader', '--disable-dev-shm-usage'],
    });
}

/** A page that keeps what goes wrong in it: errors, refused policies, requests to anywhere else than its program. */
export async function openPage(chrome, address, options = {}) {
    const context = await chrome.newContext({ viewport: sizes.desk, acceptDownloads: true, reducedMotion: 'reduce', ...options });
    const page = await context.newPage();
    page.setDefaultTimeout(8000);
    page.faults = [];
    page.on('dialog', (dialog) => void dialog.accept()); // leaving a page with something unsaved
    page.on('pageerror', (error) => page.faults.push(`error: ${error.message}`));
    page.on('console', (message) => {
        if (message.type() === 'error' && !/status of (403|404|409|423|507)/.test(message.text()))
            page.faults.push(`console: ${message.text()}`);
    });
    page.on('request', (request) => {
        const url = new URL(request.url());
        if (!['blob:', 'data:'].includes(url.protocol) && url.origin !== new URL(address).origin)
            page.faults.push(`outside request: ${request.url()}`);
    });
    await page.goto(address);
    return page;
}

export async function shot(page, name) {
    if (!process.env.SHOTS) return;
    await mkdir(process.env.SHOTS, { recursive: true });
    await page.screenshot({ path: join(process.env.SHOTS, `${name}.png`), fullPage: name.endsWith('-whole'), caret: 'initial' });
}

export function must(condition, words) {
    if (!condition) throw new Error(words);
}
export function same(got, wanted, words) {
    if (got !== wanted) throw new Error(`${words}: got ${JSON.stringify(got)}, wanted ${JSON.stringify(wanted)}`);
}

/** Runs cases in order, { 'a sentence': async () => {} }; each is a line of TAP. */
export async function cases(list, last = async () => {}) {
    const names = Object.keys(list);
    console.log(`1..${names.length}`);
    let failed = 0;
    for (const [i, name] of names.entries()) {
        try {
            await list[name]();
            console.log(`ok ${i + 1} - ${name}`);
        } catch (fault) {
            failed++;
            console.log(`not ok ${i + 1} - ${name}`);
            for (const line of String(fault.stack ?? fault)
                .split('\n')
                .slice(0, 12))
                console.log(`# ${line}`);
        }
    }
    await last();
    process.exit(failed ? 1 : 0);
}
