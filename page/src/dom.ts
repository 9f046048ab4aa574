// SPDX-License-Identifier: GPL-3.0-or-later
/* dom: elements made from words. Texts are always set as texts, never as markup; only drawings from the core come in as SVG. */

export type Child = Node | string | number | null | undefined | false | readonly Child[];
export type Attributes = Record<string, string | number | boolean | null | undefined | EventListener | ((event: never) => void)>;

function put(element: Element, children: readonly Child[]): void {
    for (const child of children) {
        if (child === null || child === undefined || child === false) continue;
        if (child instanceof Node) element.append(child);
        else if (typeof child === 'string' || typeof child === 'number') element.append(String(child));
        else put(element, child);
    }
}

/** An element: h('button', { class: 'plain', onclick: save, disabled: !changed }, 'Save'). on... are listeners; false, null and undefined
 *  leave an attribute out, true sets it empty; "value" and "checked" are set as properties. */
export function h<K extends keyof HTMLElementTagNameMap>(
    tag: K,
    attributes: Attributes = {},
    ...children: Child[]
): HTMLElementTagNameMap[K] {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
        if (value === false || value === null || value === undefined) continue;
        if (typeof value === 'function') element.addEventListener(name.slice(2), value as EventListener);
        else if (name === 'value' || name === 'checked') (element as unknown as Record<string, unknown>)[name] = value;
        else element.setAttribute(name, value === true ? '' : String(value));
    }
    put(element, children);
    return element;
}

/** Words in which names and what is typed stand between `ticks`: these are set as code. */
export function coded(words: string): Child[] {
    return words
        .split('`')
        .map((part, i, all) => (i % 2 === 1 && i < all.length - 1 ? h('code', {}, part) : i % 2 === 1 ? `\`${part}` : part));
}

/** What stood in it goes, the children come. */
export function fill(element: Element, ...children: Child[]): void {
    element.replaceChildren();
    put(element, children);
}

/** A drawing of the core as an element. It is parsed as SVG, and anything that could act (scripts, listeners, links) makes it refused. */
export function drawing(svg: string): SVGSVGElement {
    const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
    if (!(root instanceof SVGSVGElement) || root.querySelector('parsererror, script, foreignObject, a, use, image'))
        throw new Error('this is no drawing');
    return document.importNode(root, true);
}

let counter = 0;
/** A fresh id, for labels. */
export function freshId(stem: string): string {
    counter += 1;
    return `${stem}-${counter}`;
}

/** A day and time as the reader's computer writes them. */
export function whenWords(seconds: number): string {
    return new Date(seconds * 1000).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
}
