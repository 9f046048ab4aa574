// SPDX-License-Identifier: GPL-3.0-or-later
/* book_bring: job and shop files come into the book, as they are. Shops come first, so that jobs brought with them are reckoned
 * with them. */
import { type Shelf, Refused, api } from './api.js';
import { h } from './dom.js';
import { question, sayWrong } from './view.js';

const MOST_BYTES = 4 * 1024 * 1024;

interface Brought { file: File; text: string; shelf: Shelf }

/** A job has pieces, a shop a machine; a file with neither or both is asked about. */
async function shelfOf(file: File, text: string): Promise<Shelf | null> {
    const job = /^(pieces|joints|profiles)\s*:/m.test(text), shop = /^(machine|cutters|followers|spacers)\s*:/m.test(text);
    if (job !== shop) return job ? 'jobs' : 'shops';
    const answer = await question('What is this file?',
        h('p', {}, `From ${file.name} it cannot be told whether it is a job or a shop.`),
        [{ label: 'A job', value: 'jobs', main: true }, { label: 'A shop', value: 'shops' }, { label: 'Leave it', value: '' }]);
    return answer === 'jobs' || answer === 'shops' ? answer : null;
}

async function read(file: File): Promise<Brought | null> {
    if (file.size > MOST_BYTES) {
        sayWrong(new Refused(0, 'file', `The file ${file.name} is too large for a job or shop file`, 'one may have 4 MB', {}));
        return null;
    }
    let text: string;
    try {
        text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(await file.arrayBuffer());
    } catch {
        sayWrong(new Refused(0, 'file', `The file ${file.name} is no text in UTF-8`, 'bring a job file or a shop file', {}));
        return null;
    }
    const shelf = await shelfOf(file, text);
    return shelf ? { file, text, shelf } : null;
}

/** A shop's own name stands behind "shop:"; the file's name does where it has none. */
function shopName(one: Brought): string {
    const own = /^shop\s*:\s*(.+?)\s*(#.*)?$/m.exec(one.text)?.[1].replace(/^(["'])(.*)\1$/, '$2').trim();
    return (own || one.file.name.replace(/\.[^.]*$/, '')).slice(0, 200);
}

/** Gives the names of those that are in the book now. */
export async function bringFiles(files: File[]): Promise<string[]> {
    const read_: Brought[] = [], names: string[] = [];
    for (const file of files) {
        const one = await read(file);
        if (one) read_.push(one);
    }
    let shop: number | undefined;
    for (const one of read_.filter((each) => each.shelf === 'shops')) {
        shop = (await api.bring('shops', one.text, shopName(one))).id;
        names.push(shopName(one));
    }
    for (const one of read_.filter((each) => each.shelf === 'jobs')) {
        await api.bring('jobs', one.text, undefined, shop);
        names.push(one.file.name);
    }
    return names;
}
