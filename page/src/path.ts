// SPDX-License-Identifier: GPL-3.0-or-later
/* path: words of a path text (src/job/path.h): in a word, "~1" stands for "/" and "~0" for "~". */

export function pathWord(name: string): string {
    return name.replaceAll('~', '~0').replaceAll('/', '~1');
}

/** The name that a word of a path text stands for. */
export function nameOf(word: string): string {
    return word.replaceAll('~1', '/').replaceAll('~0', '~');
}
