// SPDX-License-Identifier: GPL-3.0-or-later
/* desk: a job at the desk: the rod, the text beside it, the figure in hand, undoing, comparing. */
import { type Change, type FaceSpot, type Finding, type Fix, type Model, type Step, type Texts, type Value, api } from './api.js';
import { addJoint, addPiece, spotWords, takeAway } from './add.js';
import { Bar } from './bar.js';
import { compare } from './compare.js';
import { fill, h, whenWords } from './dom.js';
import { sayRefused } from './findings.js';
import { jobHead } from './head.js';
import { nameOf, pathWord } from './path.js';
import { type Chosen, Drawings } from './place.js';
import { Rod, rodPlaces } from './rod.js';
import { dropDraft, keptDraft } from './save.js';
import { JobState } from './state.js';
import { TextField } from './text.js';
import { type View, afterQuiet, askLine, question, say, sayWrong, setTitle } from './view.js';
import { WholeView } from './whole.js';

const TYPING_QUIET_MS = 350;

/** Every figure of a model, by its id. */
function valuesOf(model: Model | null): Value[] {
    if (!model) return [];
    return [
        ...model.amounts,
        ...model.pieces.flatMap((one) => [...one.values, ...one.facts]),
        ...[...model.joints, ...model.profiles].flatMap((one) => one.values),
        ...model.templates.flatMap((one) => one.values),
    ];
}

function whose(value: Value): string {
    const [of, name] = value.id.split('/');
    const plain = nameOf(name ?? '');
    return of === 'amounts' ? 'of the job' : `of ${plain}`;
}

export const desk: View = async (host, [idText]) => {
    const id = Number(idText),
        whole = await api.entry('jobs', id),
        state = new JobState(id, whole);
    const texts = (): Texts => ({ text: state.text, shop: state.shop, job: id });
    const value = (wanted: string): Value | null => valuesOf(state.shown.model).find((one) => one.id === wanted) ?? null;
    const ticked = new Set(whole.ticks.filter((one) => one.done).map((one) => one.step));

    /* ---- making changes ---- */
    const apply = async (changes: Change[], why: string): Promise<Finding[]> => {
        takeTyped();
        const faults = await state.apply(changes, why);
        if (!faults.length) say(why, { label: 'Undo', run: () => undoOne() });
        return faults;
    };
    const fix = async (one: Fix, finding: Finding): Promise<void> => {
        const faults = await apply(one.changes, `${one.label}${finding.about ? ` (${finding.about})` : ''}`);
        await sayRefused('This cannot be done now', faults);
    };
    const rename = async (of: 'pieces' | 'joints' | 'profiles', name: string): Promise<void> => {
        const other = await askLine('Another name', `In place of ${name}`, name, 'Rename it');
        if (!other || other === name) return;
        const faults = await apply(
            [{ kind: 'rename', path: `${of}/${pathWord(name)}`, value: other }],
            `${name} is now ${other}`,
        );
        await sayRefused('It keeps its name', faults);
    };

    /* ---- the figure in hand ---- */
    const bar = new Bar({
        value,
        units: () => state.shown.model?.job.units ?? 'mm',
        attempt: (changes) => state.attempt(changes),
        refused: () => state.refused,
        apply,
        whose,
    });
    const chosen = (what: Chosen): void => {
        const all = valuesOf(state.shown.model),
            found =
                (what.path && all.find((one) => one.path === what.path)) ||
                all.find((one) => one.id === what.why) ||
                all.find((one) => one.id === what.path);
        if (found) bar.take(found, what.from, what.pointer);
    };
    const drawings = new Drawings(() => void state.refresh(), chosen);
    state.wantedDrawings = (dragging) => drawings.wanted(dragging);
    state.moved = () => drawings.changed();
    state.takeDrawing = (one) => drawings.take(one);

    /* ---- the whole, and pointing at it ---- */
    let first: FaceSpot | null = null;
    const pointed = async (spot: FaceSpot): Promise<void> => {
        const model = state.shown.model;
        if (!model) return;
        if (!first) {
            first = spot;
            furniture.tell(`${spotWords(model, spot)}: now point at the face that it is to meet`);
            return;
        }
        const one = first;
        first = null;
        furniture.tell('');
        await addJoint(model, texts(), apply, one, spot);
    };
    const furniture = new WholeView(
        drawings,
        texts,
        (spot) => void pointed(spot),
        () => {
            first = null;
        },
    );

    /* ---- the head ---- */
    const name = h('h1', { class: 'name' }),
        saved = h('span', { class: 'quiet small', role: 'status' });
    const undo = h('button', { type: 'button', onclick: () => undoOne() }, 'Undo'),
        redo = h('button', { type: 'button', onclick: () => redoOne() }, 'Redo');
    const textButton = h('button', { type: 'button', 'aria-expanded': 'false', onclick: () => showText(!textOpen) }, 'Text');
    const revisions = async (): Promise<void> =>
        compare(
            id,
            state.shop,
            (await api.entry('jobs', id)).revisions.sort((a, b) => b.number - a.number),
            state.text,
        );
    const head = jobHead(
        id,
        'desk',
        name,
        () => {
            drawings.stale();
            void state.refresh();
            furniture.refresh();
        },
        undo,
        redo,
        textButton,
        h('button', { type: 'button', onclick: () => void revisions().catch(sayWrong) }, 'Compare'),
        saved,
    );

    /* ---- the text beside ---- */
    let textOpen = false;
    const typed = afterQuiet(TYPING_QUIET_MS, () => {
        const text = field.text;
        void api.reckon({ text, shop: state.shop, job: id, prove: false }).then(
            (answer) => {
                if (text !== field.text) return;
                field.show(answer.findings.map((one) => ({ ...one, fixes: [] }))); // those that hold follow when the hand rests
                if (text !== state.text) state.setText(text, 'Typed in the text', answer.state !== 'wrong');
                else if (state.saver.state === 'waiting' && answer.state !== 'wrong') state.saver.save(text, 'Typed in the text');
            },
            (fault) => {
                sayWrong(fault);
                state.saver.save(text, 'Typed in the text');
            },
        ); // kept here, and tried again
    });
    const field = new TextField(
        'The text of the job',
        () => typed(),
        (one, finding) => void fix(one, finding),
    );
    field.element.hidden = true;
    /** What is being typed counts before anything else is done. */
    const takeTyped = (): void => {
        if (field.text !== state.text) state.setText(field.text, 'Typed in the text', false);
    };
    const undoOne = (): void => {
        takeTyped();
        void state.undo().catch(sayWrong);
    };
    const redoOne = (): void => {
        takeTyped();
        void state.redo().catch(sayWrong);
    };
    const showText = (open: boolean): void => {
        const read = [...rod.element.querySelectorAll('article, section')]
                .reverse()
                .find((one) => one.getBoundingClientRect().top < window.innerHeight / 3),
            at = read?.getBoundingClientRect().top ?? 0;
        textOpen = open;
        field.element.hidden = !open;
        textButton.setAttribute('aria-expanded', String(open));
        work.classList.toggle('with-text', open);
        localStorage.setItem('text-open', open ? '1' : '');
        if (read) window.scrollBy(0, read.getBoundingClientRect().top - at); // what was being read stays where it was
    };
    const showLine = (finding: Finding): void => {
        showText(true);
        field.go(finding.line, finding.column);
    };

    /* ---- the rod ---- */
    const rod = new Rod(
        id,
        {
            drawings,
            take: (one, from) => bar.take(one, from),
            fix: (one, finding) => void fix(one, finding),
            showLine,
            away: (of, what) => void takeAway(texts(), of, what, apply),
            rename: (of, what) => void rename(of, what),
        },
        {
            whole: furniture.element,
            addPiece: h(
                'p',
                { class: 'no-print' },
                h(
                    'button',
                    {
                        type: 'button',
                        onclick: () => {
                            if (state.shown.model) void addPiece(state.shown.model, apply);
                        },
                    },
                    'Add a piece',
                ),
            ),
            addJoint: h(
                'p',
                { class: 'no-print' },
                h(
                    'button',
                    {
                        type: 'button',
                        onclick: () => {
                            if (state.shown.model) void addJoint(state.shown.model, texts(), apply);
                        },
                    },
                    'Add a joint',
                ),
            ),
            papers: h('p', {}, h('a', { class: 'button', href: `#/job/${id}/papers` }, 'All papers: see, print, download')),
        },
        (step: Step) => ticked.has(step.key),
    );
    const places = h(
        'nav',
        { class: 'places no-print', 'aria-label': 'On this page' },
        h(
            'ul',
            {},
            rodPlaces.map(([place, words]) =>
                h(
                    'li',
                    {},
                    h(
                        'a',
                        {
                            href: `#rod-${place}`,
                            onclick: (event: Event) => {
                                event.preventDefault();
                                const part = document.getElementById(`rod-${place}`);
                                part?.scrollIntoView();
                                part?.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
                            },
                        },
                        words,
                    ),
                ),
            ),
        ),
    );
    const work = h('div', { class: 'work' }, h('main', { id: 'main' }, places, rod.element), field.element);
    host.append(
        h(
            'a',
            {
                class: 'skip',
                href: '#main',
                onclick: (event: Event) => {
                    event.preventDefault();
                    rod.element.querySelector<HTMLElement>('h2')?.focus();
                },
            },
            'To the job',
        ),
        head,
        work,
        bar.element,
    );

    /* ---- keeping it all in step ---- */
    const showSaved = (): void => {
        const { saver } = state;
        fill(
            saved,
            {
                saved: `Revision ${saver.number}, saved`,
                saving: 'Saving …',
                waiting: 'Not saved yet: it cannot be read as a job',
                failed: 'Not saved; kept on this page',
            }[saver.state],
            saver.state === 'failed'
                ? h('button', { type: 'button', class: 'small', onclick: () => saver.again() }, 'Try again')
                : null,
        );
    };
    const showAll = (): void => {
        const { model, findings } = state.shown;
        name.textContent = state.title();
        setTitle(state.title());
        rod.update(model, findings);
        if (!state.trying) field.show(findings);
        if (bar.open) bar.refresh();
        undo.disabled = state.undoWhy === null;
        redo.disabled = state.redoWhy === null;
        undo.title = state.undoWhy ? `Undo: ${state.undoWhy}` : '';
        redo.title = state.redoWhy ? `Redo: ${state.redoWhy}` : '';
        document.documentElement.dataset.tookUs = String(state.shown.tookUs);
    };
    state.listen((kind) => {
        if (kind === 'text') {
            field.text = state.text;
            furniture.refresh();
        }
        if (kind === 'answer') {
            showAll();
            if (state.trying) furniture.try(state.trying);
        }
        showSaved();
    });
    const keys = (event: KeyboardEvent): void => {
        if (!(event.ctrlKey || event.metaKey) || event.altKey || document.querySelector('dialog[open]')) return;
        const key = event.key.toLowerCase(),
            inField = event.target instanceof HTMLInputElement;
        if (inField || (key !== 'z' && key !== 'y')) return;
        event.preventDefault();
        if (key === 'y' || event.shiftKey) redoOne();
        else undoOne();
    };
    const keepTyped = (): void => {
        if (field.text !== state.text) state.saver.keepHere(field.text);
    };
    const unloading = (event: BeforeUnloadEvent): void => {
        keepTyped();
        if (state.saver.state === 'failed' || state.saver.state === 'saving') event.preventDefault();
    };
    window.addEventListener('keydown', keys);
    window.addEventListener('beforeunload', unloading);

    field.text = state.text;
    showText(localStorage.getItem('text-open') === '1' && window.innerWidth > 900);
    name.textContent = whole.entry.name;
    setTitle(whole.entry.name);
    await state.refresh();
    showSaved();
    const draft = keptDraft('jobs', id);
    if (draft && draft.text !== state.text) {
        const answer = await question(
            'Something was not saved',
            h('p', {}, `On ${whenWords(draft.when / 1000)} this page was left with a text that had not been saved yet.`),
            [
                { label: 'Go on with it', value: 'take', main: true },
                { label: 'Leave it; go on with the saved one', value: '' },
            ],
        );
        if (answer === 'take') {
            state.setText(draft.text, 'Went on with what was not saved');
        } else dropDraft('jobs', id);
    } else dropDraft('jobs', id);

    return () => {
        window.removeEventListener('keydown', keys);
        window.removeEventListener('beforeunload', unloading);
        keepTyped();
        bar.leave();
        drawings.close();
        furniture.close();
    };
};
