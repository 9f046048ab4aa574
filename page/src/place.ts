// SPDX-License-Identifier: GPL-3.0-or-later
/* place: where drawings of the core stand on the page. Each place says how wide it is; only those in sight (or nearly) are asked for, and
 * one that has not changed is not sent again. A click or Enter on a dimension calls `chosen` with the place in the text or the figure. */
import { type DrawingAnswer, type DrawingAsk, type DrawingWhat } from './api.js';
import { drawing, h } from './dom.js';

const MM_PER_PX = 25.4 / 96;
const WIDEST_MM = 400,
    NARROWEST_MM = 70,
    STEP_MM = 10;

export interface Chosen {
    path: string;
    why: string;
    from: SVGElement;
    pointer: PointerEvent | null;
}

interface Place {
    figure: HTMLElement;
    what: DrawingWhat;
    name: string;
    number: number;
    hash: string;
    seen: boolean;
    widthMm: number;
    asked: number;
}

function widthFor(px: number): number {
    return Math.min(WIDEST_MM, Math.max(NARROWEST_MM, Math.floor((px * MM_PER_PX) / STEP_MM) * STEP_MM));
}

export class Drawings {
    private places: Place[] = [];
    private turn = 1;
    private readonly sight: IntersectionObserver;
    private readonly size: ResizeObserver;

    /** ask: something new is in sight, or wider than it was. */
    constructor(
        private readonly ask: () => void,
        private readonly chosen: (what: Chosen) => void,
    ) {
        this.sight = new IntersectionObserver(
            (entries) => {
                for (const entry of entries) {
                    const place = this.places.find((one) => one.figure === entry.target);
                    if (!place) continue;
                    place.seen = entry.isIntersecting;
                    if (place.seen && place.asked !== this.turn) this.ask();
                }
            },
            { rootMargin: '400px' },
        );
        this.size = new ResizeObserver((entries) => {
            for (const entry of entries) {
                const place = this.places.find((one) => one.figure === entry.target);
                const width = widthFor(entry.contentRect.width);
                if (!place || entry.contentRect.width < 1 || width === place.widthMm) continue;
                place.widthMm = width;
                if (place.seen) this.ask();
            }
        });
    }

    /** A place for a drawing; `label` is what it shows, for those who cannot see it. */
    place(what: DrawingWhat, name: string, label: string, number = 0): HTMLElement {
        const figure = h('figure', { class: `drawn drawn-${what}`, 'aria-label': label, 'data-what': what, 'data-name': name });
        figure.addEventListener('pointerdown', (event) => this.choose(event.target, event));
        figure.addEventListener('click', (event) => {
            if (event.detail === 0) this.choose(event.target, null);
        });
        figure.addEventListener('keydown', (event) => {
            if (event.key !== 'Enter' && event.key !== ' ') return;
            if (this.choose(event.target, null)) event.preventDefault();
        });
        this.places.push({ figure, what, name, number, hash: '', seen: false, widthMm: 0, asked: 0 });
        this.sight.observe(figure);
        this.size.observe(figure);
        return figure;
    }

    /** Forgets the places within an element that is about to go. */
    forget(within: Element): void {
        this.places = this.places.filter((place) => {
            if (!within.contains(place.figure)) return true;
            this.sight.unobserve(place.figure);
            this.size.unobserve(place.figure);
            return false;
        });
    }

    /** Something has changed: what comes into sight from now on is asked for anew, and what is in sight with the next question. */
    changed(): void {
        this.turn += 1;
    }

    /** What is to be asked for now; while something is dragged, only what can be seen, not what is near. */
    wanted(dragging: boolean): DrawingAsk[] {
        const onScreen = (one: Place) => {
            const box = one.figure.getBoundingClientRect();
            return box.bottom > 0 && box.top < window.innerHeight;
        };
        const list = this.places.filter(
            (one) => one.seen && one.widthMm > 0 && one.figure.isConnected && (!dragging || onScreen(one)),
        );
        for (const place of list) place.asked = this.turn;
        return list.map((one) => ({
            what: one.what,
            name: one.name,
            number: one.number,
            width_mm: one.widthMm,
            known: one.hash,
        }));
    }

    take(answer: DrawingAnswer): void {
        for (const place of this.places) {
            if (
                place.what !== answer.what ||
                place.name !== answer.name ||
                place.number !== (answer.number ?? 0) ||
                answer.svg === undefined
            )
                continue;
            const had = document.activeElement?.closest('[data-from], [data-why]');
            const focused =
                had && place.figure.contains(had) ? (had.getAttribute('data-from') ?? had.getAttribute('data-why')) : null;
            place.hash = answer.hash;
            if (!answer.svg) {
                // there is nothing such any more
                place.figure.replaceChildren();
                continue;
            }
            const svg = drawing(answer.svg);
            svg.classList.add('drawing');
            place.figure.replaceChildren(svg);
            if (focused !== null)
                [...svg.querySelectorAll<SVGElement>('[data-from], [data-why]')]
                    .find((one) => (one.getAttribute('data-from') ?? one.getAttribute('data-why')) === focused)
                    ?.focus({ preventScroll: true });
        }
    }

    /** All drawings are asked for anew: the units have changed, say. */
    stale(): void {
        for (const place of this.places) place.hash = '';
        this.changed();
    }

    close(): void {
        this.sight.disconnect();
        this.size.disconnect();
    }

    private choose(target: EventTarget | null, pointer: PointerEvent | null): boolean {
        const mark = target instanceof Element ? target.closest<SVGElement>('[data-from], [data-why]') : null;
        if (!mark) return false;
        this.chosen({
            path: mark.getAttribute('data-from') ?? '',
            why: mark.getAttribute('data-why') ?? '',
            from: mark,
            pointer,
        });
        return true;
    }
}
