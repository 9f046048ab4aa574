// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_hand: the reader's hand on the canvas: mouse, pen, fingers and keys, as turning, moving aside, going nearer, clicking. */

export interface Hand {
    turn: (dx: number, dy: number) => void;    // pixels of the page
    shift: (dx: number, dy: number) => void;
    zoom: (factor: number, x?: number, y?: number) => void;   // the place that stays where it is; the middle when not given
    whole: () => void;
    click: (x: number, y: number) => void;     // from the canvas' upper left corner
    hover: (x: number, y: number) => void;     // a mouse only
    leave: () => void;
}

interface Place { x: number; y: number }
const CLICK_PX = 5;         // a pointer that has moved no farther has clicked
const KEY_PX = 25;          // what an arrow key turns or moves
const WHEEL = 0.0015;       // of the factor's logarithm for each pixel of the wheel
const LINE_PX = 16;         // wheels that count in lines
export const NEARER = 1.25;

function distance(a: Place, b: Place): number {
    return Math.hypot(a.x - b.x, a.y - b.y);
}

class Pointers {
    private readonly down = new Map<number, Place>();
    private moved = 0;      // px since the first pointer went down

    constructor(private readonly canvas: HTMLCanvasElement, private readonly hand: Hand) {
        canvas.addEventListener('pointerdown', (event) => this.begin(event));
        canvas.addEventListener('pointermove', (event) => this.move(event));
        canvas.addEventListener('pointerup', (event) => this.end(event));
        canvas.addEventListener('pointercancel', (event) => this.down.delete(event.pointerId));
        canvas.addEventListener('pointerleave', () => hand.leave());
        canvas.addEventListener('contextmenu', (event) => event.preventDefault());
        canvas.addEventListener('wheel', (event) => this.wheel(event), { passive: false });
    }

    private on({ clientX, clientY }: MouseEvent): [number, number] {
        const box = this.canvas.getBoundingClientRect();
        return [clientX - box.left, clientY - box.top];
    }

    private begin(event: PointerEvent): void {
        if (this.down.size === 0) this.moved = 0;
        this.down.set(event.pointerId, { x: event.clientX, y: event.clientY });
        this.canvas.setPointerCapture(event.pointerId);
    }

    private end(event: PointerEvent): void {
        const alone = this.down.delete(event.pointerId) && this.down.size === 0;
        if (alone && this.moved < CLICK_PX && event.button === 0) this.hand.click(...this.on(event));
    }

    private move(event: PointerEvent): void {
        const from = this.down.get(event.pointerId), to = { x: event.clientX, y: event.clientY };
        if (!from) {
            if (event.pointerType === 'mouse') this.hand.hover(...this.on(event));
            return;
        }
        this.down.set(event.pointerId, to);
        this.moved += distance(from, to);
        const other = [...this.down].find(([id]) => id !== event.pointerId)?.[1];
        if (other) this.pinch(from, to, other, this.on(event));
        else if (event.buttons & 6 || event.shiftKey) this.hand.shift(to.x - from.x, to.y - from.y);
        else if (this.moved >= CLICK_PX) this.hand.turn(to.x - from.x, to.y - from.y);
    }

    /** Two fingers: apart goes nearer, both aside moves it. Each of them is told of by itself, so half of its way counts. */
    private pinch(from: Place, to: Place, other: Place, [x, y]: [number, number]): void {
        const between: [number, number] = [x + (other.x - to.x) / 2, y + (other.y - to.y) / 2];
        if (distance(from, other) > 1) this.hand.zoom(distance(to, other) / distance(from, other), ...between);
        this.hand.shift((to.x - from.x) / 2, (to.y - from.y) / 2);
    }

    /** Over a view that is not in use the page scrolls on. */
    private wheel(event: WheelEvent): void {
        if (document.activeElement !== this.canvas && !event.ctrlKey) return;
        event.preventDefault();
        this.hand.zoom(Math.exp(-event.deltaY * WHEEL * (event.deltaMode === 1 ? LINE_PX : 1)), ...this.on(event));
    }
}

/** True when the key did something. */
function press(event: KeyboardEvent, hand: Hand): boolean {
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    const ways: Record<string, [number, number]> = {
        ArrowLeft: [-KEY_PX, 0], ArrowRight: [KEY_PX, 0], ArrowUp: [0, -KEY_PX], ArrowDown: [0, KEY_PX],
    };
    const way = ways[event.key];
    if (way) (event.shiftKey ? hand.shift : hand.turn)(...way);
    else if (event.key === '+' || event.key === '=') hand.zoom(NEARER);
    else if (event.key === '-') hand.zoom(1 / NEARER);
    else if (event.key === '0' || event.key === 'Home') hand.whole();
    else return false;
    return true;
}

export function take(canvas: HTMLCanvasElement, hand: Hand): void {
    new Pointers(canvas, hand);
    canvas.addEventListener('keydown', (event) => { if (press(event, hand)) event.preventDefault(); });
}
