// SPDX-License-Identifier: GPL-3.0-or-later
/* book_files: texts that leave the page as files, and their names. */
import { h } from './dom.js';

/** A name for a file: letters, digits and hyphens. */
export function fileStem(name: string): string {
    const stem = name.normalize('NFKD').toLowerCase().replace(/[^\p{Letter}\p{Number}]+/gu, '-').replace(/^-+|-+$/g, '');
    return stem.slice(0, 80) || 'job';
}

/** Hands a text to the reader's computer as a file. */
export function download(text: string, name: string, type: string): void {
    const address = URL.createObjectURL(new Blob([text], { type }));
    const link = h('a', { href: address, download: name });
    document.body.append(link);
    link.click();
    link.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), 10000);
}

export function sizeWords(bytes: number): string {
    if (bytes < 1000) return `${bytes} bytes`;
    return bytes < 1e6 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
