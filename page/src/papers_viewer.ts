// SPDX-License-Identifier: GPL-3.0-or-later
/* papers_viewer: single sheets on the screen, page by page, as large as wanted. A sheet is shown as a picture, so nothing in it
 * can act. */
import type { PaperFile } from './api.js';
import { fill, h } from './dom.js';

const LARGEST = 6, STEP = 1.25;

/** A dialog with the sheets; address gives where one is to be had. */
export function viewSheets(files: PaperFile[], first: number, address: (file: PaperFile, show: boolean) => string): void {
    let at = first, zoom = 1;
    const image = h('img', { alt: '' }), title = h('h2', {}),
        sheet = h('div', { class: 'viewer-sheet', tabindex: 0, role: 'region', 'aria-label': 'Sheet' }, image);
    const size = h('output', { 'aria-live': 'polite' }), links = h('div', { class: 'row' });
    const fit = (): void => {
        image.width = Math.round((sheet.clientWidth - 20) * zoom);
        size.textContent = zoom === 1 ? 'page width' : `${zoom.toFixed(2)} × page width`;
    };
    const show = (): void => {
        const file = files[at];
        image.src = address(file, true);
        image.alt = file.title;
        title.textContent = `${file.title} (${at + 1} of ${files.length})`;
        fill(links, h('a', { class: 'button', href: address(file, true), target: '_blank', rel: 'noopener' }, 'Print'),
            h('a', { class: 'button', href: address(file, false), download: '' }, 'Download'));
        back.disabled = at === 0;
        on.disabled = at === files.length - 1;
        fit();
    };
    const go = (by: number): void => {
        if (at + by < 0 || at + by >= files.length) return;
        at += by;
        sheet.scrollTo(0, 0);
        show();
    };
    const larger = (by: number): void => {
        zoom = Math.min(LARGEST, Math.max(0.25, zoom * by));
        fit();
    };
    const back = h('button', { type: 'button', onclick: () => go(-1) }, 'Back'),
        on = h('button', { type: 'button', onclick: () => go(1) }, 'Next');
    const head = h('div', { class: 'viewer-head' }, title, back, on,
        h('button', { type: 'button', 'aria-label': 'Smaller', onclick: () => larger(1 / STEP) }, '−'), size,
        h('button', { type: 'button', 'aria-label': 'Larger', onclick: () => larger(STEP) }, '+'), links,
        h('button', { type: 'button', onclick: () => dialog.close() }, 'Close'));
    const dialog = h('dialog', { class: 'viewer', 'aria-label': 'Single sheets' }, h('div', {}, head, sheet));
    dialog.addEventListener('keydown', (event) => {
        const run: Record<string, () => void> = { ArrowRight: () => go(1), ArrowLeft: () => go(-1), '+': () => larger(STEP),
            '-': () => larger(1 / STEP) };
        const scrolls = event.key.startsWith('Arrow') && document.activeElement === sheet && zoom > 1;
        if (!(event.key in run) || scrolls) return;
        event.preventDefault();
        run[event.key]();
    });
    const away = (): void => dialog.close();
    window.addEventListener('resize', fit);
    window.addEventListener('hashchange', away);
    dialog.addEventListener('close', () => {
        window.removeEventListener('resize', fit);
        window.removeEventListener('hashchange', away);
        dialog.remove();
    });
    document.body.append(dialog);
    dialog.showModal();
    show();
    sheet.focus();
}
