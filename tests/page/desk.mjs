// SPDX-License-Identifier: GPL-3.0-or-later
/* A job at the desk, as a maker goes about it, in the real program with a real browser. */
import { axePath, browser, cases, must, openPage, same, scratch, serve, shot } from './harness.mjs';

const place = await scratch();
let program = await serve(place.book);
const chrome = await browser();
const page = await openPage(chrome, program.address);

/** What is written in the job's text, as the book has it now. */
async function savedText() {
    const id = Number(page.url().match(/#\/job\/(\d+)/)[1]);
    return page.evaluate(async (job) => await (await fetch(`/api/entry?shelf=jobs&id=${job}`)).json(), id);
}
/** What the book has once the page says that it is saved and the text is as wanted; after a while, what it has then. */
async function saved(wanted = () => true) {
    for (let i = 0; ; i++) {
        if ((await page.getByText(/^Revision \d+, saved$/).count()) > 0) {
            const entry = await savedText();
            if (wanted(entry.text) || i > 80) return entry;
        }
        must(i <= 80, 'the page never said that it is saved');
        await page.waitForTimeout(100);
    }
}
async function noFaults() {
    same(page.faults.join('; '), '', 'faults in the page');
}
async function axe(what) {
    await noFaults();
    const source = await (await import('node:fs/promises')).readFile(axePath, 'utf8');
    const session = await page.context().newCDPSession(page);
    await session.send('Runtime.evaluate', { expression: source });
    const { result } = await session.send('Runtime.evaluate', {
        awaitPromise: true,
        returnByValue: true,
        expression: `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }).then((r) => r.violations.map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.target.join(' ') + ' ' + n.failureSummary).join(' | ')))`,
    });
    same(result.value.join('\n'), '', `violations of accessibility, ${what}`);
    await session.detach();
    page.faults.length = 0; // axe sets styles of its own, which the policy refuses
}

await cases(
    {
        'the address opens the book, and is without its token afterwards': async () => {
            await page.getByRole('heading', { name: /begin/i }).first().waitFor();
            same(new URL(page.url()).search, '', 'query of the address');
            same(await page.title(), 'Tuskwright', 'title');
        },
        'a job begins from a starting design, and the page bears its title': async () => {
            await page.getByRole('radio', { name: /trestle table/i }).check();
            await page
                .getByRole('radio', { name: /millimetres|mm/i })
                .first()
                .check();
            await page.getByRole('button', { name: /^begin/i }).click();
            await page.waitForURL(/#\/job\/\d+/);
            await page.getByRole('heading', { name: 'Pieces' }).waitFor();
            const { text } = await savedText();
            const title = /^job: (.*)$/m.exec(text)[1].replace(/^["']|["']$/g, '');
            await page.waitForFunction((wanted) => document.title === wanted, title);
        },
        'each piece and each joint is drawn': async () => {
            const drawn = await page.locator('figure[data-what="piece"]').count();
            must(drawn >= 3, `only ${drawn} pieces`);
            for (const what of ['piece', 'joint', 'template']) {
                await page.locator(`figure[data-what="${what}"]`).first().scrollIntoViewIfNeeded();
                await page.locator(`figure[data-what="${what}"] svg`).first().waitFor();
            }
        },
        'a dimension on the drawing is clicked, changed and kept, with its remarks untouched': async () => {
            const before = (await savedText()).text;
            const mark = page.locator('figure[data-what="piece"] svg [data-from$="/width"]').first();
            await mark.scrollIntoViewIfNeeded();
            const path = await mark.getAttribute('data-from');
            await mark.click();
            const bar = page.locator('.bar');
            await bar.getByText('Why this number?').waitFor();
            const field = bar.getByLabel(/written/i),
                old = await field.inputValue();
            await field.fill('77');
            await page.waitForFunction(() => document.querySelector('.bar .now').textContent.startsWith('77'));
            await field.press('Enter');
            const { text } = await saved((one) => one !== before);
            must(text !== before && text.includes('77'), 'the text has the new width');
            same(text.split('\n').length, before.split('\n').length, 'lines of the text');
            same(
                text.split('\n').filter((line, i) => line !== before.split('\n')[i]).length,
                1,
                `lines that changed (${path} was ${old})`,
            );
        },
        'undo brings the old text back, redo the new one': async () => {
            const now = (await savedText()).text;
            await page.getByRole('button', { name: 'Undo', exact: true }).first().click();
            const undone = (await saved((one) => one !== now)).text;
            must(undone !== now && !undone.includes('77'), 'undone');
            await page.getByRole('button', { name: 'Redo', exact: true }).click();
            same((await saved((one) => one === now)).text, now, 'text done again');
            await page.getByRole('button', { name: 'Undo', exact: true }).first().click();
            same((await saved((one) => one === undone)).text, undone, 'text undone again');
        },
        'a dimension is dragged: the drawing follows, and Escape leaves it as it was': async () => {
            const mark = page.locator('figure[data-what="joint"] svg [data-from]').first();
            await mark.scrollIntoViewIfNeeded();
            await page.waitForTimeout(200);
            const before = (await savedText()).text,
                box = await mark.boundingBox(),
                joint = page.locator('figure[data-what="joint"]').first(),
                drawn = await joint.innerHTML();
            await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
            await page.mouse.down();
            for (let i = 1; i <= 6; i++) await page.mouse.move(box.x + box.width / 2 + 4 * i, box.y + box.height / 2);
            await page.waitForFunction((old) => document.querySelector('figure[data-what="joint"]').innerHTML !== old, drawn);
            await page.mouse.up();
            await page.keyboard.press('Escape');
            await page.waitForFunction((old) => document.querySelector('figure[data-what="joint"]').innerHTML === old, drawn);
            same((await savedText()).text, before, 'text in the book');
        },
        'a change of a joint changes its template': async () => {
            const template = page.locator('#rod-templates article', { hasText: 'housings' }).locator('figure');
            await template.scrollIntoViewIfNeeded();
            await template.locator('svg').waitFor();
            const drawn = await template.innerHTML(),
                { text } = await savedText();
            await page.getByRole('button', { name: 'Text', exact: true }).click();
            const field = page.getByLabel('The text of the job'),
                width = /^( +tenon width: *)(\S.*?)( +#.*)?$/m.exec(text);
            const other = width
                ? text.replace(width[0], `${width[1]}30${width[3] ?? ''}`)
                : text.replace(/^( +)kind: forked tusks.*$/m, '$&\n$1tenon width: 30');
            must(other !== text, 'the text was changed');
            await field.fill(other);
            await template.scrollIntoViewIfNeeded();
            await page.waitForFunction(([figure, old]) => figure.innerHTML !== old, [await template.elementHandle(), drawn]);
            same((await saved((one) => one === other)).text, other, 'typed text in the book');
        },
        'what is wrong in the text is told at its place and not saved; mended, it is saved': async () => {
            const field = page.getByLabel('The text of the job'),
                good = await field.inputValue();
            await field.fill(`${good}\nwonky: 3\n`);
            await page.locator('.faults .finding-wrong').first().waitFor();
            await page.getByText(/Not saved yet/).waitFor();
            must(!(await savedText()).text.includes('wonky'), 'the book keeps the readable text');
            await field.fill(good);
            await page.locator('.faults .finding-wrong').first().waitFor({ state: 'detached' });
            same((await saved((one) => one === good)).text, good, 'text in the book');
            await page.getByRole('button', { name: 'Text', exact: true }).click();
        },
        'a remedy is applied with one click, and its finding goes': async () => {
            await page.getByRole('button', { name: 'Text', exact: true }).click();
            const field = page.getByLabel('The text of the job'),
                good = await field.inputValue();
            await field.fill(
                /^ +angle:.*$/m.test(good)
                    ? good.replace(/^( +)angle:.*$/m, '$1angle: 9 deg')
                    : good.replace(/^( +)kind: forked tusks$/m, '$1kind: forked tusks\n$1angle: 9 deg'),
            );
            const fix = page.locator('#rod-joints .finding .fix').first();
            await fix.waitFor();
            const code = await fix.locator('xpath=ancestor::li').getAttribute('data-code');
            await saved();
            await fix.click();
            await page.locator(`#rod-joints .finding[data-code="${code}"]`).first().waitFor({ state: 'detached' });
            await page.getByRole('button', { name: 'Text', exact: true }).click();
        },
        'units change at once, and back': async () => {
            const width = page.getByRole('button', { name: /^width: / }).first(),
                mm = await width.textContent();
            must(/ mm$/.test(mm), `millimetres at first: ${mm}`);
            await page.getByLabel('Lengths are written in').selectOption('in 1/64');
            await page.waitForFunction(() =>
                / in\b/.test(document.querySelector('#rod-pieces [aria-label^="width: "]').textContent),
            );
            await page.getByLabel('Lengths are written in').selectOption('');
            await page.waitForFunction(
                (old) => document.querySelector('#rod-pieces [aria-label^="width: "]').textContent === old,
                mm,
            );
        },
        'every figure opens its sum': async () => {
            const reckoned = page.locator('#rod-joints .figures tr', { hasText: 'reckoned' }).locator('.value').first();
            await reckoned.click();
            const sum = await page.locator('.bar .sum').textContent();
            must(sum.length > 3 && !/Nothing more/.test(sum), `a sum: ${sum}`);
            await page.keyboard.press('Escape');
            await page
                .locator('.bar')
                .getByRole('button', { name: 'Close' })
                .click()
                .catch(() => {});
        },
        'two revisions stand side by side': async () => {
            await page.getByRole('button', { name: 'Compare' }).click();
            await page.getByRole('heading', { name: 'The figures' }).waitFor();
            const select = page.getByLabel('From', { exact: true });
            await select.selectOption({ index: (await select.locator('option').count()) - 1 });
            await page.locator('.line-come, .line-gone').first().waitFor();
            await page.locator('table.moved tbody tr').first().waitFor();
            await page.getByRole('button', { name: 'Close' }).last().click();
        },
        'a piece is added and taken away again': async () => {
            await page.getByRole('button', { name: 'Add a piece' }).click();
            await page.getByLabel('Name').fill('spare slat');
            await page.getByRole('button', { name: 'Add it' }).click();
            await page.getByRole('heading', { name: 'spare slat' }).waitFor();
            await page.locator('#piece-spare-slat').getByRole('button', { name: 'Take away' }).click();
            await page.getByRole('button', { name: 'Take it away' }).click();
            await page.getByRole('heading', { name: 'spare slat' }).waitFor({ state: 'detached' });
            await saved();
        },
        'the body can be turned, drawn apart and cut open': async () => {
            await page.getByRole('button', { name: 'Turn it' }).click();
            await page.locator('.solid-host canvas').waitFor();
            await page.waitForTimeout(1500);
            await shot(page, 'desk-turn');
            await page.getByRole('button', { name: 'Picture' }).click();
        },
        'the page has no violation of accessibility, light and dark': async () => {
            await page.evaluate(() => window.scrollTo(0, 0));
            await axe('desk, light');
            await page.emulateMedia({ colorScheme: 'dark' });
            await axe('desk, dark');
            await page.emulateMedia({ colorScheme: 'light' });
        },
        'it stands on a phone, a desk and a wall without scrolling sideways': async () => {
            for (const [name, size] of Object.entries({
                phone: { width: 360, height: 740 },
                tablet: { width: 820, height: 1180 },
                desk: { width: 1440, height: 900 },
                zoomed: { width: 720, height: 450 },
                wall: { width: 3840, height: 2160 },
            })) {
                await page.setViewportSize(size);
                await page.evaluate(() => window.scrollTo(0, 0));
                await page.waitForTimeout(400);
                const over = await page.evaluate(
                    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
                );
                must(over <= 0, `${name}: ${over} px too wide`);
                await shot(page, `desk-${name}`);
            }
            await page.setViewportSize({ width: 1440, height: 900 });
        },
        'a value that cannot be is refused, and the reason stays until something else is tried': async () => {
            await page.locator('#rod-pieces .value').nth(2).click();
            const field = page.locator('.bar').getByLabel(/written/i),
                before = (await savedText()).text;
            await field.fill('abc');
            await field.press('Enter');
            await page.waitForTimeout(1000); // the answer to the unchanged job has come too by now
            must(/Nothing is named abc/.test(await page.locator('.bar [role=alert]').textContent()), 'the reason stands there');
            same((await savedText()).text, before, 'text in the book');
            await field.press('Escape');
        },
        'a figure is stepped as often as the key is pressed': async () => {
            const button = page
                    .locator('#rod-pieces')
                    .getByRole('button', { name: /^length: / })
                    .first(),
                at = parseFloat(await button.textContent());
            await button.click();
            await page.locator('.grip').focus();
            for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowRight');
            same(
                parseFloat(
                    await page
                        .locator('.bar')
                        .getByLabel(/written/i)
                        .inputValue(),
                ),
                at + 4,
                'eight steps of half a millimetre',
            );
            await page.locator('.bar').getByRole('button', { name: 'Close' }).click();
            await page.waitForFunction(
                (old) => parseFloat(document.querySelector('#rod-pieces [aria-label^="length: "]').textContent) === old,
                at,
            );
        },
        'what is typed and undone at once can be done again': async () => {
            await page.getByRole('button', { name: 'Text', exact: true }).click();
            const field = page.getByLabel('The text of the job'),
                before = await field.inputValue();
            await field.focus();
            await page.keyboard.press('Control+Home');
            await page.keyboard.type('# mine\n');
            await page.keyboard.press('Control+z');
            await page.waitForFunction((old) => document.querySelector('.text textarea').value === old, before);
            await page.keyboard.press('Control+y');
            await page.waitForFunction((old) => document.querySelector('.text textarea').value === `# mine\n${old}`, before);
            await page.keyboard.press('Control+z');
            await page.waitForFunction((old) => document.querySelector('.text textarea').value === old, before);
            await page.getByRole('button', { name: 'Text', exact: true }).click();
            same((await saved((one) => one === before)).text, before, 'text in the book');
        },
        'a joint is chosen from lists, and places are counted in the unit shown': async () => {
            await page.getByLabel('Lengths are written in').selectOption('in 1/64');
            await page.getByRole('button', { name: 'Add a joint' }).click();
            await page.getByLabel('This: piece', { exact: true }).selectOption('stretcher');
            await page.getByLabel('This: face', { exact: true }).selectOption('left end');
            must(
                await page.getByLabel('This: in from the left end', { exact: true }).isHidden(),
                'an end has no place along the piece',
            );
            await page.getByLabel('meets this: face', { exact: true }).selectOption('face');
            must(
                await page.getByLabel('meets this: in from the left end', { exact: true }).isVisible(),
                'a face has one, in inches',
            );
            await page.getByRole('group', { name: 'Joints that fit there' }).waitFor();
            await page.getByRole('button', { name: 'Leave it' }).click();
            await page.getByLabel('Lengths are written in').selectOption('');
            must((await page.locator('.alarm').textContent()) === '', 'nothing went wrong');
        },
        'the printed desk has the name of the job and its values': async () => {
            await page.emulateMedia({ media: 'print' });
            for (const shown of ['.head .name', '#rod-pieces .value'])
                must(await page.locator(shown).first().isVisible(), `${shown} is printed`);
            for (const gone of ['.head nav', '#rod-pieces .card-head button'])
                must(await page.locator(gone).first().isHidden(), `${gone} is not`);
            await page.emulateMedia({ media: 'screen' });
        },
        'a job that cannot be read says why at its head': async () => {
            const desk = page.url();
            const brought = await page.evaluate(
                async () =>
                    (
                        await (
                            await fetch('/api/book/import', {
                                method: 'POST',
                                headers: { 'Content-Type': 'application/json' },
                                body: JSON.stringify({ shelf: 'jobs', name: 'torn', text: 'job: torn\npieces: [\n' }),
                            })
                        ).json()
                    ).id,
            );
            await page.goto(`${new URL(desk).origin}/#/job/${brought}`);
            await page.locator('#rod-whole .finding-wrong', { hasText: 'A value is missing here' }).waitFor();
            await page.goto(desk);
            await page
                .getByRole('button', { name: /^width: / })
                .first()
                .waitFor();
        },
        'taking the other of two changes leaves mine to Undo': async () => {
            const other = await page.context().newPage();
            await other.goto(page.url());
            for (const [one, width] of [
                [other, '81'],
                [page, '82'],
            ]) {
                await one
                    .getByRole('button', { name: /^width: / })
                    .first()
                    .click();
                const field = one.locator('.bar').getByLabel(/written/i);
                await field.fill(width);
                await field.press('Enter');
                if (one === other)
                    must((await saved((text) => text.includes('81'))).text.includes('81'), 'the other change is in the book');
                else
                    await one
                        .getByText(/somebody else/i)
                        .first()
                        .waitFor();
            }
            await page.keyboard.press('Escape'); // left open: asked again
            await page.getByRole('button', { name: 'Try again' }).click();
            await page.getByRole('button', { name: 'Take the other one' }).click();
            await page.waitForFunction(
                () => document.querySelector('#rod-pieces [aria-label^="width: "]').textContent === '81.0 mm',
            );
            await page.getByRole('button', { name: 'Undo', exact: true }).first().click();
            await page.waitForFunction(
                () => document.querySelector('#rod-pieces [aria-label^="width: "]').textContent === '82.0 mm',
            );
            must((await saved((one) => one.includes('82'))).text.includes('82'), 'mine is in the book after all');
            await other.close();
        },
        'two windows change one job: the second is asked, and nothing is lost': async () => {
            const other = await page.context().newPage();
            await other.goto(page.url());
            await other.getByRole('heading', { name: 'Pieces' }).waitFor();
            const label = other.getByText(/^Revision \d+, saved$/),
                first = await label.textContent();
            await other.locator('#rod-pieces .value').first().click();
            await other
                .locator('.bar')
                .getByLabel(/written/i)
                .fill('3');
            await other.keyboard.press('Enter');
            await other.waitForFunction(
                (old) =>
                    [...document.querySelectorAll('[role="status"]')].some(
                        (one) => /^Revision \d+, saved$/.test(one.textContent) && one.textContent !== old,
                    ),
                first,
            );
            await page.locator('#rod-pieces .value').nth(1).click();
            const field = page.locator('.bar').getByLabel(/written/i);
            await field.fill('999');
            await field.press('Enter');
            await page.getByRole('heading', { name: /somebody else/i }).waitFor();
            await shot(page, 'desk-conflict');
            const before = page.url();
            await page.getByRole('button', { name: /keep both/i }).click();
            await page.waitForFunction((old) => location.href !== old, before);
            must((await savedText()).text.includes('999'), 'mine is a job of its own');
            await other.close();
        },
        'a killed program is told of, the text is kept, and it goes on when the program is back': async () => {
            await program.kill();
            await page.getByRole('button', { name: 'Text', exact: true }).click();
            const field = page.getByLabel('The text of the job'),
                text = await field.inputValue();
            await field.fill(`# kept through a kill\n${text}`);
            await page.getByText(/does not answer/).waitFor();
            must((await field.inputValue()).startsWith('# kept'), 'the text is still on the page');
            const there = new URL(page.url());
            program = await serve(place.book, '--port', there.port);
            await page.goto(program.address);
            await page.goto(`${there.origin}/${there.hash}`);
            await page.getByRole('button', { name: 'Go on with it' }).click();
            must(
                (await saved((one) => one.startsWith('# kept'))).text.startsWith('# kept through a kill'),
                'the text is in the book after all',
            );
        },
        'nothing went wrong in the page, and nothing was asked of anybody else': async () => {
            page.faults = page.faults.filter((fault) => !/Failed to load resource|ERR_CONNECTION/.test(fault));
            await noFaults();
        },
    },
    async () => {
        await chrome.close();
        await program.stop();
        await place.gone();
    },
);
