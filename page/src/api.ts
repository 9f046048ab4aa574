// SPDX-License-Identifier: GPL-3.0-or-later
/* api: what the page asks the program, with the shapes of the answers. All sums are the program's: here are only texts. */

export type Shelf = 'jobs' | 'shops';
export type FileKind = 'job' | 'shop';

export interface Entry {
    id: number;
    name: string;
    created_s: number;
    changed_s: number;
    newest: number;
    binned: boolean;
    binned_s: number;
    from: number;
    from_number: number;
}
export interface Revision {
    number: number;
    when_s: number;
    why: string;
    bytes: number;
}
export interface Tick {
    step: string;
    done: boolean;
    when_s: number;
}
export interface Measure {
    revision: number;
    key: string;
    file: FileKind;
    value: number;
    text?: string;
    when_s: number;
    note: string;
}
export interface WholeEntry {
    entry: Entry;
    text: string;
    number: number;
    shop: number;
    shop_text: string;
    revisions: Revision[];
    ticks: Tick[];
    ledger: Measure[];
}

export interface ChangeEntry {
    key: string;
    value?: string;
    list?: string[];
}
export interface Change {
    kind: 'set' | 'remove' | 'add' | 'rename';
    path: string;
    value?: string;
    list?: string[];
    entries?: ChangeEntry[];
    file?: FileKind;
}
export interface Fix {
    label: string;
    changes: Change[];
}
export interface Finding {
    level: 'note' | 'care' | 'halt' | 'wrong';
    code: string;
    about: string;
    file: string;
    line: number;
    column: number;
    what: string;
    remedy: string;
    fixes?: Fix[];
}

/** A figure of the job: its text in the units asked for, how it is written in the job, and its sum. */
export interface Value {
    id: string;
    path: string;
    label: string;
    symbol: string;
    text: string;
    bare: string;
    unit: string;
    written: string;
    given: boolean;
    sum: string;
    rule: string;
    value: number;
    choices: string[] | null;
}
export interface PieceModel {
    name: string;
    path: string;
    count: number;
    timber: string;
    note: string;
    values: Value[];
    facts: Value[];
    alike_to: string;
    mirror_of: string;
}
export interface JointModel {
    name: string;
    path: string;
    kind: string;
    count: number;
    note: string;
    pieces: string[];
    values: Value[];
    parts: { name: string; count: number; size: string }[];
    advice: string[];
}
export interface TemplateModel {
    name: string;
    title: string;
    joint: string;
    values: Value[];
    making: string;
    guides: string;
    clearing: string;
    notes: string[];
    serves: string[];
}
export interface Spacer {
    name: string;
    size: string;
    count: number;
}
export interface Setting {
    label: string;
    figure: string;
    sum: string;
    direction: string;
    between: string;
    stack: Spacer[];
    stack_total: string;
    stack_error: string;
}
export interface Card {
    setup: string;
    template: string;
    follower: string;
    cutter: string;
    stick_out: string;
    speed: string;
    face: string;
    down: string;
    hand: string;
    packing: string;
    settings: Setting[];
    feed: string;
    passes: string;
    breakout: string;
}
export interface LedgerPlace {
    key: string;
    file: FileKind;
    label: string;
    now: string;
}
export interface Step {
    key: string;
    number: number;
    name: string;
    what: string;
    tally: string;
    boxes: number;
    change: string;
    keeps: string;
    cautions: string[];
    joint: string;
    piece: string;
    state: string;
    marks: string;
    test_piece: string;
    measure: {
        what: string;
        wanted: string;
        least: string;
        most: string;
        wanted_mm: number;
        least_mm: number;
        most_mm: number;
        if_off: string;
    } | null;
    centred: boolean;
    card: Card | null;
    ledger: LedgerPlace[];
}
export interface Model {
    job: {
        title: string;
        revision: string;
        note: string;
        sets: number;
        units: string;
        figures: string;
        paper: string;
        shop_name: string;
    };
    amounts: Value[];
    pieces: PieceModel[];
    joints: JointModel[];
    profiles: JointModel[];
    templates: TemplateModel[];
    steps: Step[];
    measured: { key: string; file: FileKind; label: string; drawn: string; built: string }[];
    run_lines: string;
    papers: string[];
}

export type DrawingWhat = 'whole' | 'picture' | 'apart' | 'piece' | 'joint' | 'profile' | 'template' | 'grain' | 'card';
export interface DrawingAsk {
    what: DrawingWhat;
    name: string;
    number?: number;
    width_mm: number;
    known?: string;
}
export interface DrawingAnswer {
    what: DrawingWhat;
    name: string;
    number?: number;
    hash: string;
    svg?: string;
}
export interface Moved {
    id: string;
    where: string;
    label: string;
    before: string;
    after: string;
}

/** The texts to reckon with: `shop` is the id of a shop of the book, shop_text a text in its place; with `job` its ledger counts. */
export interface Texts {
    text: string;
    shop?: number;
    shop_text?: string;
    job?: number;
}
/** cards: false leaves out of the model what the cards say: its steps have key, number, name, tally and change only.
 *  prove: false leaves the fixes of the findings unproved (with changes they are so always). */
export interface ReckonAsk extends Texts {
    changes?: Change[];
    figures?: string | null;
    model?: boolean;
    cards?: boolean;
    prove?: boolean;
    drawings?: DrawingAsk[];
    compare_with?: { text: string; shop_text?: string };
}
export interface ReckonAnswer {
    good: boolean;
    text?: string;
    shop_text?: string;
    refused?: Finding[];
    state: 'good' | 'halt' | 'wrong';
    findings: Finding[];
    model?: Model;
    drawings?: DrawingAnswer[];
    moved?: Moved[];
    took_us: number;
}

export interface FaceSpot {
    piece: string;
    face: string;
    at: number;
    across: number;
}
export interface Proposal {
    kind: string;
    label: string;
    changes: Change[];
}
export interface Move {
    stop: string;
    way: string;
    by: string;
    by_mm: number;
    stack?: Spacer[];
    sum: string;
    setting?: string;
    setting_stack?: Spacer[] | string;
}
/** What can be measured on a trial piece; `of` says which when another trial is made. */
export type TrialOf = 'measure' | 'depth' | 'along' | 'up';
export interface TrialDimension {
    of: TrialOf;
    what: string;
    wanted: string;
    least: string;
    most: string;
}
export interface TrialAnswer {
    moves: Move[];
    notes: string[];
    good?: boolean;
    dimensions?: TrialDimension[];
}
export interface PaperFile {
    name: string;
    title: string;
    purpose: string;
    bytes: number;
    pages: number;
    true_size: boolean;
    kind: string;
}
export interface Work {
    state: 'working' | 'done' | 'stopped' | 'failed';
    done: number;
    of: number;
    what: string;
    error?: string;
}
export interface Network {
    on: boolean;
    addresses: string[];
    code: string | null;
    expires_s: number;
    desk: boolean;
}

export interface WordKey {
    key: string;
    meaning: string;
    required: boolean;
    choices: string[] | null;
    kind: string;
}
export interface Words {
    joints: { kind: string; meaning: string; keys: WordKey[] }[];
    profiles: { kind: string; meaning: string; keys: WordKey[] }[];
    pieces: WordKey[];
    designs: { kind: string; title: string; meaning: string }[];
}

/** What the program refused, or that it could not be asked: `what` and `remedy` are sentences for the maker. */
export class Refused extends Error {
    constructor(
        readonly status: number,
        readonly code: string,
        readonly what: string,
        readonly remedy: string,
        readonly answer: Record<string, unknown>,
    ) {
        super(remedy ? `${what}; ${remedy}` : what);
    }
}

async function ask<T>(method: 'GET' | 'POST', path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
    let response: Response;
    try {
        response = await fetch(path, {
            method,
            credentials: 'same-origin',
            signal: signal ?? null,
            ...(method === 'POST' ? { headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body ?? {}) } : {}),
        });
    } catch (fault) {
        if (fault instanceof DOMException && fault.name === 'AbortError') throw fault;
        throw new Refused(
            0,
            'away',
            'The program does not answer',
            'see whether it still runs, then try again; what you typed is kept on this page',
            {},
        );
    }
    const answer = (await response.json().catch(() => null)) as Record<string, unknown> | null;
    if (response.ok && answer) return answer as T;
    if (response.ok || !answer)
        throw new Refused(response.ok ? 0 : response.status, 'away', "The program's answer did not come whole", 'try again', {});
    const error = (answer.error ?? {}) as Record<string, string>;
    throw new Refused(
        response.status,
        error.code ?? String(response.status),
        error.what ?? `The program answered ${response.status}`,
        error.remedy ?? '',
        answer,
    );
}

function query(path: string, words: Record<string, string | number | boolean | undefined>): string {
    const list = new URLSearchParams();
    for (const [key, value] of Object.entries(words))
        if (value !== undefined) list.set(key, typeof value === 'boolean' ? (value ? '1' : '0') : String(value));
    return `${path}?${list}`;
}

export const api = {
    words: () => ask<Words>('GET', '/api/words'),
    list: (shelf: Shelf, words = '', binned = false) =>
        ask<{ entries: Entry[] }>('GET', query('/api/book', { shelf, words, binned })),
    begin: (kind: string, units: 'mm' | 'in', name?: string) =>
        ask<{ id: number; shop: number }>('POST', '/api/book/begin', { kind, units, name }),
    bring: (shelf: Shelf, text: string, name?: string, shop?: number) =>
        ask<{ id: number }>('POST', '/api/book/import', { shelf, text, name, shop }),
    copy: (shelf: Shelf, id: number, name: string, number?: number) =>
        ask<{ id: number }>('POST', '/api/book/copy', { shelf, id, name, number }),
    rename: (shelf: Shelf, id: number, name: string) => ask<object>('POST', '/api/book/rename', { shelf, id, name }),
    bin: (shelf: Shelf, id: number) => ask<object>('POST', '/api/book/bin', { shelf, id }),
    unbin: (shelf: Shelf, id: number) => ask<object>('POST', '/api/book/unbin', { shelf, id }),
    entry: (shelf: Shelf, id: number) => ask<WholeEntry>('GET', query('/api/entry', { shelf, id })),
    text: (shelf: Shelf, id: number, number: number) =>
        ask<{ text: string; number: number; why: string; when_s: number }>('GET', query('/api/text', { shelf, id, number })),
    save: (shelf: Shelf, id: number, expected: number, text: string, why: string, shop?: number) =>
        ask<{ number: number }>('POST', '/api/save', { shelf, id, expected, text, why, shop }),
    branch: (shelf: Shelf, id: number, number: number, name: string, text: string, why: string) =>
        ask<{ id: number }>('POST', '/api/branch', { shelf, id, number, name, text, why }),
    reckon: (what: ReckonAsk, signal?: AbortSignal) => ask<ReckonAnswer>('POST', '/api/reckon', what, signal),
    solids: <T>(what: Texts, signal?: AbortSignal) => ask<T>('POST', '/api/solids', what, signal),
    propose: (what: Texts, first: FaceSpot, second: FaceSpot) =>
        ask<{ proposals: Proposal[] }>('POST', '/api/propose', { ...what, first, second }),
    removal: (what: Texts, of: 'pieces' | 'joints' | 'profiles', name: string) =>
        ask<{ changes: Change[] }>('POST', '/api/removal', { ...what, what: of, name }),
    tick: (job: number, step: string, done: boolean) => ask<{ ticks: Tick[] }>('POST', '/api/tick', { job, step, done }),
    measured: (job: number, revision: number, key: string, file: FileKind, value: string, note: string, only_try: boolean) =>
        ask<{ moved: Moved[]; ledger: Measure[]; findings?: Finding[] }>('POST', '/api/measured', {
            job,
            revision,
            key,
            file,
            value,
            note,
            try: only_try,
        }),
    trial: (
        what: Texts,
        step: string,
        got: { wanted?: string; got?: string; of?: TrialOf; flip?: [string, string]; along?: boolean },
    ) => ask<TrialAnswer>('POST', '/api/trial', { ...what, step, ...got }),
    booklet: (job: number, number?: number) => ask<{ work: number }>('POST', '/api/booklet', { job, number }),
    work: (id: number) => ask<Work>('GET', query('/api/work', { id })),
    stop: (id: number) => ask<object>('POST', '/api/work/stop', { id }),
    papers: (job: number, number?: number) =>
        ask<{ ready: boolean; files: PaperFile[] }>('GET', query('/api/papers', { job, number })),
    paperAddress: (job: number, number: number, name: string, show: boolean) => query('/papers', { job, number, name, show }),
    network: () => ask<Network>('GET', '/api/network'),
    networkCode: () => ask<Network>('POST', '/api/network/code', {}),
};
