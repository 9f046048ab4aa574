// SPDX-License-Identifier: GPL-3.0-or-later
/* findings: what stands against the job, each with its remedy and, where it can be had with one click, the button for it. */
import type { Finding, Fix } from './api.js';
import { coded, h } from './dom.js';
import { question } from './view.js';

const levelWords = { halt: 'Halt', care: 'Care', note: 'Note', wrong: 'Cannot be read' } as const;

function sentence(words: string): string {
    return words ? `${words[0].toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}` : '';
}

export interface FindingUse {
    fix?: (fix: Fix, finding: Finding) => void;
    show?: (finding: Finding) => void;
}

export function findingItem(finding: Finding, use: FindingUse, withAbout: boolean): HTMLElement {
    return h(
        'li',
        { class: `finding finding-${finding.level}`, 'data-code': finding.code },
        h(
            'p',
            {},
            h('span', { class: `level level-${finding.level}` }, levelWords[finding.level]),
            ' ',
            withAbout && finding.about ? h('strong', {}, coded(`${finding.about}: `)) : null,
            coded(sentence(finding.what)),
            ' ',
            finding.remedy ? h('span', { class: 'remedy' }, coded(sentence(finding.remedy))) : null,
        ),
        h(
            'div',
            { class: 'row' },
            use.fix
                ? (finding.fixes ?? []).map((fix) =>
                      h('button', { type: 'button', class: 'fix', onclick: () => use.fix?.(fix, finding) }, fix.label),
                  )
                : null,
            use.show && finding.line > 0
                ? h(
                      'button',
                      { type: 'button', class: 'plain small', onclick: () => use.show?.(finding) },
                      `Line ${finding.line}`,
                  )
                : null,
        ),
    );
}

export function findingList(findings: Finding[], use: FindingUse, withAbout = true): HTMLElement | null {
    return findings.length
        ? h(
              'ul',
              { class: 'findings' },
              findings.map((one) => findingItem(one, use, withAbout)),
          )
        : null;
}

/** Says in a dialog why something was not done, each reason once. */
export async function sayRefused(title: string, faults: Finding[]): Promise<void> {
    if (!faults.length) return;
    const once = faults.filter(
        (one, i) => faults.findIndex((other) => other.what === one.what && other.remedy === one.remedy) === i,
    );
    await question(title, findingList(once, {}), [{ label: 'Close', value: '', main: true }]);
}

/** "1 halt, 2 cares" */
export function findingWords(findings: Finding[]): string {
    const count = (level: Finding['level']) => findings.filter((one) => one.level === level).length;
    const words = (
        [
            ['wrong', 'fault'],
            ['halt', 'halt'],
            ['care', 'care'],
            ['note', 'note'],
        ] as const
    )
        .map(([level, word]) => ({ n: count(level), word }))
        .filter((one) => one.n > 0)
        .map(({ n, word }) => `${n} ${word}${n === 1 ? '' : 's'}`);
    return words.length ? words.join(', ') : 'nothing stands against it';
}
