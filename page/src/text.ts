// SPDX-License-Identifier: GPL-3.0-or-later
/* text: a text of the book in an editor, with the numbers of its lines and what is wrong at its place. It is a plain field of text, so
 * that the keyboard and screen readers find what they know; marks lie in a layer behind it. */
import type { Finding, Fix } from './api.js';
import { type Child, fill, freshId, h } from './dom.js';
import { findingList } from './findings.js';

export class TextField {
    readonly element: HTMLElement;
    private readonly field: HTMLTextAreaElement;
    private readonly numbers = h('pre', { class: 'numbers', 'aria-hidden': 'true' });
    private readonly marks = h('pre', { class: 'marks', 'aria-hidden': 'true' });
    private readonly faults = h('div', { class: 'faults', role: 'status' });
    private findings: Finding[] = [];
    /** A field of text knows only "\n": lines of a text that end otherwise end so again when it leaves the field. */
    private ends = '\n';

    /** typed: called with every change by the maker. */
    constructor(
        label: string,
        private readonly typed: (text: string) => void,
        private readonly fix?: (fix: Fix, finding: Finding) => void,
    ) {
        const id = freshId('text');
        this.field = h('textarea', {
            id,
            spellcheck: 'false',
            autocapitalize: 'off',
            autocomplete: 'off',
            wrap: 'off',
            oninput: () => {
                this.draw();
                this.typed(this.field.value);
            },
            onscroll: () => this.scrolled(),
            onkeydown: (event: KeyboardEvent) => this.key(event),
        });
        this.element = h(
            'div',
            { class: 'text' },
            h('label', { for: id }, label),
            h('div', { class: 'editor' }, this.numbers, h('div', { class: 'page' }, this.marks, this.field)),
            this.faults,
        );
    }

    get text(): string {
        return this.ends === '\n' ? this.field.value : this.field.value.replaceAll('\n', this.ends);
    }
    /** Sets the text from outside; the place of the cursor stays where the text before it is the same. */
    set text(text: string) {
        if (text === this.text) return;
        this.ends = /\r\n/.test(text) && !/[^\r]\n/.test(text) ? '\r\n' : '\n';
        const at = this.field.selectionStart,
            top = this.field.scrollTop;
        this.field.value = text;
        this.field.setSelectionRange(at, at);
        this.field.scrollTop = top;
        this.draw();
    }

    /** Findings with a place in this text; only those that make it unreadable are listed below it. */
    show(findings: Finding[]): void {
        this.findings = findings.filter((one) => one.line > 0);
        fill(
            this.faults,
            findingList(
                this.findings.filter((one) => one.level === 'wrong'),
                { fix: this.fix, show: (one) => this.go(one.line, one.column) },
            ),
        );
        this.draw();
    }

    /** Puts the cursor there and brings it into sight. */
    go(line: number, column: number): void {
        const lines = this.field.value.split('\n');
        const before = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
        const at = before + [...(lines[line - 1] ?? '')].slice(0, Math.max(0, column - 1)).join('').length;
        this.field.focus();
        this.field.setSelectionRange(at, at);
        const high = parseFloat(getComputedStyle(this.field).lineHeight) || 20;
        this.field.scrollTop = Math.max(0, (line - 4) * high);
        this.scrolled();
    }

    private scrolled(): void {
        this.numbers.scrollTop = this.field.scrollTop;
        this.marks.scrollTop = this.field.scrollTop;
        this.marks.scrollLeft = this.field.scrollLeft;
    }

    private draw(): void {
        const lines = this.field.value.split('\n'),
            worst = new Map<number, Finding>();
        const order = ['note', 'care', 'halt', 'wrong'];
        for (const one of this.findings) {
            const other = worst.get(one.line);
            if (!other || order.indexOf(one.level) > order.indexOf(other.level)) worst.set(one.line, one);
        }
        const marked = [...worst.keys()].filter((line) => line <= lines.length).sort((a, b) => a - b);
        const plain = (to: (line: number) => string, mark: (line: number, finding: Finding) => Child[]): Child[] => {
            const parts: Child[] = [];
            let from = 1;
            const until = (end: number): void => {
                if (end > from) parts.push(Array.from({ length: end - from }, (_, i) => `${to(from + i)}\n`).join(''));
            };
            for (const line of marked) {
                until(line);
                parts.push(...mark(line, worst.get(line) as Finding), '\n');
                from = line + 1;
            }
            until(lines.length + 1);
            return parts;
        };
        fill(
            this.numbers,
            plain(String, (line, finding) => [h('span', { class: `level-${finding.level}` }, line)]),
        );
        fill(
            this.marks,
            !marked.length
                ? null
                : plain(
                      (line) => lines[line - 1],
                      (line, finding) => {
                          const characters = [...lines[line - 1]],
                              from = Math.min(Math.max(0, finding.column - 1), Math.max(0, characters.length - 1));
                          return [
                              characters.slice(0, from).join(''),
                              h('mark', { class: `level-${finding.level}` }, characters.slice(from).join('') || ' '),
                          ];
                      },
                  ),
        );
        this.scrolled();
    }

    /** Tab makes two spaces, as YAML wants; after Escape it leaves the field, so that nobody is caught in it. */
    private leaveByTab = false;
    private key(event: KeyboardEvent): void {
        if (event.key === 'Escape') {
            this.leaveByTab = true;
            return;
        }
        if (event.key === 'Tab' && !event.shiftKey && !this.leaveByTab) {
            event.preventDefault();
            this.field.setRangeText('  ', this.field.selectionStart, this.field.selectionEnd, 'end');
            this.draw();
            this.typed(this.field.value);
        }
        if (event.key !== 'Tab') this.leaveByTab = false;
    }
}
