// SPDX-License-Identifier: GPL-3.0-or-later
/* Bundles the page: node page/build.mjs OUT DEPFILE writes page.js, solid.js, page.css, index.html, icon.svg and manifold.wasm into the
 * folder OUT, with page_files.h, which has a digest of each, and to DEPFILE what they were made of, so that the build knows when to do
 * it again. */
import { build } from 'esbuild';
import { createHash } from 'node:crypto';
import { copyFile, mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const [out, depfile] = process.argv.slice(2);
if (!out || !depfile) throw new Error('usage: node build.mjs OUT DEPFILE');
const root = process.cwd();
const target = resolve(out);
await mkdir(target, { recursive: true });

const common = {
    absWorkingDir: here,
    bundle: true,
    format: 'esm',
    target: 'es2022',
    charset: 'utf8',
    minify: true,
    legalComments: 'none',
    metafile: true,
    logLevel: 'warning',
    external: ['node:*', 'module', 'fs', 'path', 'url', '/solid.js'],
};
const made = await Promise.all([
    build({ ...common, entryPoints: ['src/page.ts'], outfile: join(target, 'page.js') }),
    build({ ...common, entryPoints: ['src/solid.ts'], outfile: join(target, 'solid.js') }),
    build({ ...common, entryPoints: ['style/all.css'], outfile: join(target, 'page.css') }),
]);
const copies = { 'index.html': 'index.html', 'icon.svg': 'icon.svg', 'node_modules/manifold-3d/manifold.wasm': 'manifold.wasm' };
for (const [from, to] of Object.entries(copies)) await copyFile(join(here, from), join(target, to));

const symbols = {
    index: 'index.html',
    page: 'page.js',
    solid: 'solid.js',
    style: 'page.css',
    icon: 'icon.svg',
    manifold: 'manifold.wasm',
};
let header = '/* made by page/build.mjs */\n';
for (const [symbol, file] of Object.entries(symbols)) {
    const digest = createHash('sha256')
        .update(await readFile(join(target, file)))
        .digest('hex')
        .slice(0, 20);
    header += `#define TW_DIGEST_OF_${symbol} "${digest}"\n`;
}
await writeFile(join(target, 'page_files.h'), header);

const inputs = new Set([
    'build.mjs',
    'package-lock.json',
    ...Object.keys(copies),
    ...made.flatMap((one) => Object.keys(one.metafile.inputs)),
]);
const escaped = [...inputs].map((path) => relative(root, join(here, path)).replaceAll(' ', '\\ '));
await writeFile(depfile, `${relative(root, join(target, 'page.js'))}: ${escaped.join(' ')}\n`);
