// SPDX-License-Identifier: GPL-3.0-or-later
/* The book, the run at the machine, the papers and the shop's text, as a maker uses them, in the real program with a real
 * browser. node tests/page/machine.mjs BUILD/tuskwright Figures on the cards are held to those that `setout` writes into
 * job.json; what a measured size and a trial cut move to the copying formulas (design notes: a cutter larger by x makes a pocket
 * x wider; centring: half of the difference at the table, half of the ratio times it at the template); papers to pdfinfo and to
 * the bytes of `setout`. */
import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { axePath, browser, cases, must, openPage, root, same, scratch, serve, shot, sizes } from './harness.mjs';

const run = promisify(execFile), program = resolve(process.argv[2] ?? join(root, 'build/tuskwright'));
const example = join(root, 'examples/reading-table'), TITLE = 'Reading table of the travelling library';
const place = await scratch(), served = await serve(place.book), chrome = await browser();
const desk = await openPage(chrome, served.address);
const told = await setOut();
let phone, job = 0;

async function setOut() {
    const folder = join(place.folder, 'papers');
    await run(program, ['setout', join(example, 'job.yaml'), '-o', folder]);
    return { folder, json: JSON.parse(await readFile(join(folder, 'job.json'), 'utf8')) };
}
async function go(page, hash) {
    await page.goto(`${served.origin}/${hash}`);
}
async function told409(page, words) {
    await page.getByRole('dialog').getByText(words).waitFor();
}
const entry = (page, id = job) => page.evaluate(async (one) => (await fetch(`/api/entry?shelf=jobs&id=${one}`)).json(), id);
const done = async (step) => (await entry(desk)).ticks.some((one) => one.step === step && one.done);

async function card(page, number) {
    await page.locator('.kicker', { hasText: `Card ${number} of ` }).waitFor();
}
/** The large figure with that name on the card. */
const figure = (page, label) => page.locator(`.setting[data-label="${label}"] .figure`).innerText();

async function axe(page, what) {
    same(page.faults.join('; '), '', `faults in the page, ${what}`);
    const session = await page.context().newCDPSession(page);
    await session.send('Runtime.evaluate', { expression: await readFile(axePath, 'utf8') });
    const tags = "['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']";
    const expression = `axe.run(document, { runOnly: ${tags} }).then((r) =>
        r.violations.map((v) => v.id + ': ' + v.nodes.slice(0,
            3).map((n) => n.target.join(' ') + ' ' + n.failureSummary).join(' | ')))`;
    const { result } = await session.send('Runtime.evaluate', { awaitPromise: true, returnByValue: true, expression });
    same(result.value.join('\n'), '', `violations of accessibility, ${what}`);
    await session.detach();
    page.faults.length = 0;   // axe sets styles of its own, which the policy refuses
}
async function noSideways(page, what) {
    same(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), 0, `${what} can be pushed sideways by`);
}

async function writeShop(page, saw) {
    const field = page.getByLabel('The text of the shop'), text = await field.inputValue();
    await field.fill(text.replace(/kerf: .*/, saw));
}

await cases({
    /* ---- the book ---- */
    'an empty book welcomes, and shows the designs first': async () => {
        await desk.getByRole('heading', { name: 'Welcome' }).waitFor();
        const boxes = await Promise.all(['Begin a job', 'Shops'].map((name) => desk.getByRole('heading',
            { name }).boundingBox()));
        await desk.getByText('Bring files').waitFor();
        must(boxes[0].y < boxes[1].y, 'the designs do not stand before the shops');
        await axe(desk, 'empty book');
    },
    'job and shop files are brought together, byte for byte, the job with its shop': async () => {
        await desk.locator('#bring').setInputFiles([join(example, 'job.yaml'), join(example, 'shop.yaml')]);
        const link = desk.getByRole('link', { name: TITLE, exact: true });
        await link.waitFor();
        job = Number(/job\/(\d+)/.exec(await link.getAttribute('href'))[1]);
        const kept = await entry(desk);
        same(kept.text, await readFile(join(example, 'job.yaml'), 'utf8'), 'text of the job');
        same(kept.shop_text, await readFile(join(example, 'shop.yaml'), 'utf8'), 'text of its shop');
    },
    'what is no text is refused in words, and the book stays as it was': async () => {
        const odd = join(place.folder, 'odd.yaml');
        await writeFile(odd, Buffer.from([0x6a, 0xff, 0xfe, 0x00]));
        await desk.locator('#bring').setInputFiles([odd]);
        await desk.getByRole('alert').getByText('odd.yaml is no text in UTF-8').waitFor();
        await desk.getByRole('button', { name: 'Close' }).click();
        same(await desk.locator('.jobs .entry').count(), 1, 'jobs');
    },
    'a job is copied, named anew, found by search, binned and taken out again': async () => {
        await desk.getByRole('button', { name: `Copy: ${TITLE}` }).click();
        await desk.getByLabel('Name of the copy').fill('The second table');
        await desk.keyboard.press('Enter');
        await desk.getByRole('button', { name: 'Rename: The second table' }).click();
        await desk.getByLabel('New name in the book').fill('A table for the quay');
        await desk.keyboard.press('Enter');
        await desk.getByRole('link', { name: 'A table for the quay', exact: true }).waitFor();
        await desk.getByLabel('Search').fill('quay');
        await desk.getByText('1 job has these words.').waitFor();
        same((await desk.locator('.jobs .entry-name').allInnerTexts()).join(), 'A table for the quay', 'found');
        await desk.getByRole('button', { name: 'Bin: A table for the quay' }).click();
        await desk.getByText('No job has these words.').waitFor();
        await desk.getByRole('button', { name: 'Undo' }).click();
        await desk.getByText('1 job has these words.').waitFor();
        await desk.getByRole('button', { name: 'Bin: A table for the quay' }).click();
        await desk.getByText('The bin', { exact: true }).click();
        await desk.getByRole('button', { name: 'Take out: A table for the quay' }).click();
        await desk.getByText('The bin is empty.').waitFor();
        await desk.getByLabel('Search').fill('');
        await desk.getByRole('link', { name: TITLE, exact: true }).waitFor();
        await axe(desk, 'book');
    },
    'a job leaves the book as the file that came in': async () => {
        const [file] = await Promise.all([desk.waitForEvent('download'),
            desk.getByRole('button', { name: `Save as file: ${TITLE}` }).click()]);
        same(file.suggestedFilename(), 'reading-table-of-the-travelling-library.yaml', 'name of the file');
        same(await readFile(await file.path(), 'utf8'), await readFile(join(example, 'job.yaml'), 'utf8'), 'its text');
    },
    'without a network it is told how a tablet gets in': async () => {
        await desk.getByText('tuskwright serve --on-network').waitFor();
    },

    /* ---- at the machine ---- */
    'the run opens at its first card on a phone, and bears the job\'s title': async () => {
        phone = await openPage(chrome, served.address, { viewport: sizes.phone, hasTouch: true });
        await go(phone, `#/job/${job}/run`);
        await card(phone, 1);
        same(await phone.title(), TITLE, 'title');
        for (const button of await phone.locator('.run-bar button').all())
            must((await button.boundingBox()).height >= 56, 'a button is less than 56 px high');
        await noSideways(phone, 'the card');
    },
    'three cards are ticked by Enter, with a reload between; another device goes on at the fourth': async () => {
        const on = phone.getByRole('button', { name: 'Tick and go on' });
        await on.focus();
        await phone.keyboard.press('Enter');
        await card(phone, 2);
        await phone.keyboard.press('Enter');
        await card(phone, 3);
        await phone.waitForFunction(async (id) =>
            (await (await fetch(`/api/entry?shelf=jobs&id=${id}`)).json()).ticks.length === 2, job);
        await phone.reload();
        await card(phone, 3);
        await on.click();
        await card(phone, 4);
        await phone.locator('.count', { hasText: '3 of 34 done' }).waitFor();
        await go(desk, `#/job/${job}/run`);
        await card(desk, 4);
    },
    'a tick that cannot be sent waits, over a reload too, and goes into the book when the program answers': async () => {
        await phone.route('**/api/tick', (route) => route.abort());
        await phone.getByRole('button', { name: 'Tick and go on' }).click();
        await phone.getByText('Not yet in the book').waitFor();
        const name = told.json.run[3].name;
        must(!(await done(name)), 'it is in the book already');
        await phone.reload();
        await card(phone, 5);
        await phone.getByRole('button', { name: 'Back' }).click();
        await phone.getByText('Done, not yet in the book').waitFor();
        await phone.unroute('**/api/tick');
        await phone.locator('.not-yet').waitFor({ state: 'detached' });
        must(await done(name), 'it is not in the book');
        phone.faults.length = 0;   // the refused requests
    },
    'a tick is taken away again': async () => {
        await phone.getByRole('button', { name: 'Take the tick away' }).click();
        await phone.locator('.count', { hasText: '3 of 34 done' }).waitFor();
        await phone.waitForFunction(async (id) =>
            (await (await fetch(`/api/entry?shelf=jobs&id=${id}`)).json()).ticks.some((one) => !one.done), job);
    },
    'boxes of the tally are in the book': async () => {
        await phone.locator('.box input').nth(1).check();
        await phone.waitForFunction(async (id) =>
            (await (await fetch(`/api/entry?shelf=jobs&id=${id}`)).json()).ticks.some((one) => /box.2$/.test(one.step)
            && one.done), job);
        await phone.reload();
        await card(phone, 4);
        must(await phone.locator('.box input').nth(1).isChecked(), 'the second box is not ticked');
        must(!(await phone.locator('.box input').first().isChecked()), 'the first box is ticked');
    },
    'arrow keys and strokes turn the cards': async () => {
        await phone.keyboard.press('ArrowRight');
        await card(phone, 5);
        await phone.keyboard.press('ArrowLeft');
        await card(phone, 4);
    },
    'the figures to set are those of the papers, with picture, cautions and sums': async () => {
        for (const step of told.json.run.filter((one) => one.setup)) {
            const setup = told.json.setups.find((one) => one.name === step.setup);
            await go(phone, `#/job/${job}/run/${step.number}`);
            await card(phone, step.number);
            for (const one of [setup.shift, setup.table, setup.stop, setup.depth].filter((each) => each?.label))
                same(await figure(phone, one.label), `${one.value_mm.toFixed(1)} mm`, `${one.label} of card ${step.number}`);
            const stack = setup.shift?.stack?.spacers ?? [];
            const shown = await phone.locator('.setting[data-label="shift"] .stack li span').allInnerTexts();
            same(shown.join(), stack.map((one) => one.name).join(), `stack of card ${step.number}`);
            for (const words of setup.cautions.split('\n')) await phone.locator('.cautions',
                { hasText: words.replace(/\.$/, '') }).waitFor();
            await phone.locator('.card-picture svg').waitFor();
        }
        await phone.locator('.setting').first().getByText('Why this number?').click();
        await phone.locator('.setting .why-number p').first().waitFor();
        await shot(phone, 'run-phone');
    },
    'the shift\'s arrow points as the setup says': async () => {
        const step = told.json.run.find((one) =>
            told.json.setups.find((setup) => setup.name === one.setup)?.shift?.direction_x === -1);
        await go(phone, `#/job/${job}/run/${step.number}`);
        await card(phone, step.number);
        same((await phone.locator('.setting[data-label="shift"] .big').innerText()).replace(/\s+/g, ' ').replace(/[\d.]+ mm/,
            'N'), '← N to the left', 'arrow');
    },
    'a cutter measured 0.1 mm smaller makes mortises 0.1 mm narrower, once it is accepted': async () => {
        const step = told.json.run.find((one) => one.name === 'post to foot: mortises');
        await go(phone, `#/job/${job}/run/${step.number}`);
        await card(phone, step.number);
        const wanted = phone.locator('.part', { hasText: 'First piece: measure' }).locator('> .big .figure');
        same(await wanted.innerText(), '12.7 mm', 'width of the mortise');
        const form = phone.locator('form.place', { hasText: 'cutter long 12.7' });
        await form.getByRole('textbox').fill('12.6 m m');
        await form.getByRole('button', { name: 'See what it moves' }).click();
        await form.getByRole('alert').waitFor();
        await form.getByRole('textbox').fill('12.6');
        await form.getByRole('button', { name: 'See what it moves' }).click();
        await form.locator('.moved-table tr', { hasText: 'width of the mortise' }).first().waitFor();
        same((await entry(phone)).ledger.length, 0, 'lines of the ledger before it was accepted');
        await form.getByText('one that is made already must be made anew').waitFor();
        await form.getByRole('button', { name: 'Accept 12.6' }).click();
        await phone.getByText('moved: was 12.7 mm', { exact: false }).first().waitFor();
        same(await wanted.innerText(), '12.6 mm', 'width of the mortise');
        await phone.locator('.mounted', { hasText: 'moved: was long 12.7 (12.7 mm)' }).waitFor();
        await shot(phone, 'measured-phone');
    },
    'what was measured counts on another device, and the list of steps says what it moved': async () => {
        await go(desk, `#/job/${job}/run/9`);
        await desk.reload();
        await desk.getByText('moved: was 12.7 mm').waitFor();
        await desk.getByRole('button', { name: /^Steps/ }).click();
        const list = desk.getByRole('dialog', { name: 'All steps' });
        await list.getByRole('button', { name: /post to foot: mortises.*moved/ }).waitFor();
        await axe(desk, 'list of steps');
        await desk.keyboard.press('Escape');
        await axe(desk, 'card at a desk\'s screen');
        await shot(desk, 'run-desk');
    },
    'the drawn size can be taken again': async () => {
        await phone.getByRole('button', { name: /^Take the drawn/ }).click();
        await phone.getByRole('button', { name: /^Accept/ }).click();
        await phone.getByText('moved: was 12.7 mm').waitFor({ state: 'detached' });
        phone.faults.length = 0;   // 400 for what is no length
        await axe(phone, 'card on a phone');
        await noSideways(phone, 'the card');
    },
    'a trial cut and the flip test say what to move, halved and doubled as it must be': async () => {
        const step = told.json.run.find((one) => one.name === 'post to foot: tenons');
        await go(phone, `#/job/${job}/run/${step.number}`);
        await card(phone, step.number);
        const flip = phone.locator('form.trial', { hasText: 'Is the cut in the middle?' });
        await flip.getByLabel('First cut').fill('30.2');
        await flip.getByLabel('After turning').fill('30.6');
        await flip.getByRole('button', { name: 'What to move' }).click();
        await flip.locator('.moves .setting').nth(1).waitFor();
        const moves = await flip.locator('.moves .setting').evaluateAll((list) =>
            list.map((one) => [one.querySelector('h3').textContent, one.querySelector('.figure').textContent]));
        same(JSON.stringify(moves), JSON.stringify([['table', '0.20 mm'], ['template', '0.40 mm']]),
            'half at the table, ratio / 2 at the template');
        const got = phone.locator('form.trial', { hasText: 'Trial cut' });
        await got.getByLabel('Got').fill('abc');
        await got.getByRole('button', { name: 'What to move' }).click();
        await got.getByRole('alert').waitFor();
        await got.getByLabel('Got').fill(await got.getByLabel('Wanted').inputValue());
        await got.getByRole('button', { name: 'What to move' }).click();
        await got.getByText('It is within its limits: move nothing.').waitFor();
        phone.faults.length = 0;   // 400 for "abc"
    },
    'a newer revision is told of, and taken only when the maker says so': async () => {
        await phone.evaluate(async (id) => {
            const whole = await (await fetch(`/api/entry?shelf=jobs&id=${id}`)).json();
            await fetch('/api/save', { method: 'POST', headers: { 'Content-Type': 'application/json' },
                body: JSON.stringify({ shelf: 'jobs', id, expected: whole.number, text: whole.text.replace('at: [190, 480]',
                    'at: [200, 480]'), why: 'lower stretcher raised' }) });
            document.dispatchEvent(new Event('visibilitychange'));
        }, job);
        await phone.getByText('The job was changed at the desk: revision 2.').waitFor();
        await phone.getByRole('button', { name: /^Steps/ }).click();
        await phone.getByRole('button', { name: /mortises at 190.0 mm/ }).waitFor();
        await phone.keyboard.press('Escape');
        await phone.getByRole('button', { name: 'Show the new figures' }).click();
        await phone.getByRole('button', { name: /^Steps/ }).click();
        await phone.getByRole('button', { name: /mortises at 200.0 mm/ }).waitFor();
        await phone.keyboard.press('Escape');
    },

    /* ---- papers ---- */
    'the making of the papers shows how far it is, and stops': async () => {
        await go(desk, `#/job/${job}/papers`);
        await desk.getByRole('link', { name: 'Download: The job' }).waitFor();   // before any paper is made
        await desk.getByRole('button', { name: 'Make the papers' }).click();
        await desk.locator('progress').waitFor();
        await desk.getByRole('button', { name: 'Stop' }).click();
        await desk.getByText('Stopped. No papers were made.').waitFor();
        same(await desk.title(), TITLE, 'title');
    },
    'the booklet is made and comes as a PDF with as many pages as are told': async () => {
        await desk.getByRole('button', { name: 'Make them again' }).click();
        await desk.locator('.paper.first').waitFor({ timeout: 60000 });
        const [file] = await Promise.all([desk.waitForEvent('download'),
            desk.getByRole('link', { name: 'Download: Booklet' }).click()]);
        const { stdout } = await run('pdfinfo', [await file.path()]);
        const pages = Number(/Pages:\s+(\d+)/.exec(stdout)[1]);
        must(pages > 30, `only ${pages} pages`);
        must((await desk.locator('.paper.first').innerText()).includes(`${pages} pages`), 'another number of pages is told');
        await axe(desk, 'papers');
    },
    'single sheets are looked at one after the other, larger and smaller': async () => {
        await desk.getByRole('button', { name: /^See all \d+/ }).click();
        const viewer = desk.getByRole('dialog', { name: 'Single sheets' }), picture = viewer.locator('img');
        await viewer.getByRole('heading', { name: /\(1 of \d+\)$/ }).waitFor();
        await desk.waitForFunction(() => document.querySelector('.viewer img').naturalWidth > 0);
        const width = (await picture.boundingBox()).width;
        await desk.keyboard.press('+');
        const larger = (await picture.boundingBox()).width;
        must(Math.abs(larger / width - 1.25) < 0.01, `it grew from ${width} to ${larger}`);
        await desk.keyboard.press('-');
        await desk.keyboard.press('ArrowRight');
        await viewer.getByRole('heading', { name: /\(2 of \d+\)$/ }).waitFor();
        await axe(desk, 'single sheets');
        await desk.keyboard.press('Escape');
    },
    'a file comes byte for byte as setout writes it': async () => {
        await go(desk, '#/');
        const copy = desk.getByRole('link', { name: 'A table for the quay', exact: true });
        const second = Number(/job\/(\d+)/.exec(await copy.getAttribute('href'))[1]);   // the text as it was brought
        await go(desk, `#/job/${second}/papers`);
        await desk.getByRole('button', { name: 'Make the papers' }).click();
        await desk.locator('.paper.first').waitFor({ timeout: 60000 });
        for (const name of ['cutting-list.csv', 'templates.pdf']) {
            const [file] = await Promise.all([desk.waitForEvent('download'),
                desk.locator(`.paper[data-name="${name}"]`).getByRole('link', { name: /^Download/ }).click()]);
            const got = await readFile(await file.path()), wanted = await readFile(join(told.folder, name));
            must(got.equals(wanted), `${name} is another one`);
        }
        await noSideways(desk, 'the list of papers');
    },

    /* ---- the shop ---- */
    'a fault in the shop\'s text is marked at its line, and nothing is saved by itself': async () => {
        await go(desk, '#/');
        await desk.getByRole('link', { name: 'The shop behind the reading room' }).first().click();
        await writeShop(desk, 'kerf: wide');
        await desk.locator('.finding-wrong').getByRole('button', { name: 'Line 25' }).waitFor();
        await desk.getByText('Changed, not saved').waitFor();
        await desk.reload();
        const question = desk.getByRole('dialog');
        await question.getByRole('button', { name: 'Go on with it' }).click();
        await desk.waitForFunction(() => document.querySelector('textarea').value.includes('kerf: wide'));
        await writeShop(desk, 'kerf: 2.6');
        await desk.getByRole('button', { name: 'Save', exact: true }).click();
        await desk.getByText('Revision 2, saved').waitFor();
        await axe(desk, 'shop');
    },
    'two windows that change one shop get a choice, and no change is lost': async () => {
        const other = await desk.context().newPage();
        await other.goto(desk.url());
        await writeShop(other, 'kerf: 2.7');
        await other.getByRole('button', { name: 'Save', exact: true }).click();
        await other.getByText('Revision 3, saved').waitFor();
        await writeShop(desk, 'kerf: 2.8');
        await desk.getByRole('button', { name: 'Save', exact: true }).click();
        await told409(desk, 'Nothing is lost whichever you choose');
        await desk.getByRole('button', { name: 'Keep both: mine as a copy' }).click();
        await desk.waitForURL((url) => !url.hash.endsWith('/1'));
        await desk.waitForFunction(() => document.querySelector('textarea')?.value.includes('kerf: 2.8'));
        await other.reload();
        await other.waitForFunction(() => document.querySelector('textarea')?.value.includes('kerf: 2.7'));
        await other.close();
    },
    'nothing went wrong in either page': async () => {
        same([...desk.faults, ...phone.faults].join('; '), '', 'faults');
    },
}, async () => {
    await chrome.close();
    await served.stop();
    await place.gone();
});
