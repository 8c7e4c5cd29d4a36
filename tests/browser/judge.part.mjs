// Every page as axe-core judges it, light and dark, wide and on a phone; nothing scrolls sideways.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const source = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// What stands in the index, and what a page leads to from there that is worth its own look.
async function pages(page) {
	return page.locator('nav.thumb a').evaluateAll(links => links.map(link => link.getAttribute('href')));
}

// What stands behind the index: a card, the forms about a piece, a plan beside another, an entry; the
// reason of a cell.
const OWNERS = ['/locker/LR-1', '/locker?by=wrong', '/done/LJ-6', '/mend/LJ-1', '/buy/LJ-1', '/winter?only=buy', '/gone/FL-1', '/new?count=10',
	'/years?renew=EB-1', '/safe/1', '/sheet/practice', '/sheets', '/shore-papers/tags?vessel=Quillfish', '/shore-papers/docket?vessel=Quillfish',
	'/shore-papers/return-list?vessel=Quillfish', '/survey/Quillfish'];
const FLEETS = ['/saturday?on=2027-04-03&boat=Amberjay&line=pm-beacon', '/move/AJ-FE-1', '/booking', '/reminders/choices', '/winter?vessel=Amberjay', '/winter?base=Cape+Lorne', '/survey/Amberjay'];

// What a fleet has as an owner has it: left out unless the whole is asked for.
const AS_OWNERS = ['/back', '/list', '/reminders', '/safe', '/nowhere', '/shore-papers/all?vessel=Quillfish'];

// What axe-core calls serious; where only colours are in question, those alone.
async function serious(tools, page, path, words, coloursAlone = false) {
	const found = await page.evaluate(async colours => {
		const result = await window.axe.run(document, { resultTypes: ['violations'],
			...(colours ? { runOnly: ['color-contrast', 'link-in-text-block'] } : {}) });
		return result.violations.filter(one => ['serious', 'critical'].includes(one.impact))
			.map(one => `${one.id}: ${one.nodes.slice(0, 3).map(node => node.html.slice(0, 120)).join(' ')}`);
	}, coloursAlone);
	tools.check(`axe: ${path} ${words} has nothing serious`, found.length === 0, found.join(' | '));
}

async function fits(tools, page, path, words) {
	const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
	tools.check(`axe: ${path} ${words} does not scroll sideways`, wide <= 0, `${wide} px`);
}

// On a phone in light colours and at a desk in dark ones; the whole of it, in both colours at both. A page is
// loaded once, for nothing that is sent depends on the width or the colours. Between the widths only the width is asked.
async function judge(tools, page, path) {
	for (const [width, first, second] of [[320, 'light', 'dark'], [1400, 'dark', 'light']]) {
		await page.setViewportSize({ width, height: 800 });
		await page.emulateMedia({ colorScheme: first });
		await serious(tools, page, path, `${first} at ${width}`);
		if (tools.whole) {
			await page.emulateMedia({ colorScheme: second });
			await serious(tools, page, path, `${second} at ${width}, its colours,`, true);
		}
		await fits(tools, page, path, `at ${width}`);
	}
	await page.setViewportSize({ width: 800, height: 800 });
	await fits(tools, page, path, 'at 800');
}

// The page that stands there, with what was done to come to it.
async function judgeHere(tools, page, words, texts) {
	texts.push([words, await page.content()]);
	await page.addScriptTag({ content: source });
	await judge(tools, page, words);
}

// The Nu HTML checker of the W3C's validator, where there is a Java to run it.
function spell(tools, pages) {
	const files = pages.map(([name, text], number) => {
		const file = path.join(tools.folder, `page-${number}.html`);
		fs.writeFileSync(file, text);
		return { name, file };
	});
	const jar = path.join(path.dirname(createRequire(import.meta.url).resolve('vnu-jar/package.json')), 'build/dist/vnu.jar');
	const done = spawnSync('java', ['-jar', jar, '--errors-only', '--format', 'text', ...files.map(one => one.file)],
		{ encoding: 'utf8' });
	if (done.error) {
		console.log(`skip nu: there is no Java (${done.error.code})`);
		return;
	}
	tools.check(`nu: ${files.map(one => one.name).join(' ')} have no error`, done.status === 0, done.stderr.slice(0, 1000));
}

// A window in which what judges may be put in, whatever the policy says.
function bench(tools, house) {
	return tools.window(house, { bypassCSP: true });
}

async function look(tools, house, beyond, left = []) {
	const page = await bench(tools, house);
	const texts = [];
	const all = [...await pages(page), ...beyond, '/nowhere', '/shore-papers/all?vessel=Quillfish'];
	for (const place of all.filter(one => tools.whole || !left.includes(one))) {
		texts.push([place, await (await page.goto(house.origin + place)).text()]);
		await page.addScriptTag({ content: source });
		await judge(tools, page, place);
	}
	spell(tools, texts);
	tools.away = tools.away.filter(words => !words.includes('status of 404'));
}

// What stands only behind a file that was sent: a list with cells to mend and words read, a copy to be put back.
async function brought(tools, house) {
	const list = path.join(tools.folder, 'judged.csv');
	const copy = path.join(tools.folder, 'judged.db');
	fs.writeFileSync(list, 'Tag,What,Vessel,Made,Code\nLJ-9,lifejacket auto,Quillfish,2021-02-31,A1\nFE-9,powder extinguisher,Quillfish,2022,A2\n');
	house.ask('book', 'backup', copy);
	const page = await bench(tools, house);
	for (const [place, label, file, button] of [['/list', 'A spreadsheet', list, 'Read it'], ['/safe', 'The copy', copy, 'Look at the copy']]) {
		await page.goto(house.origin + place);
		await page.locator('details').evaluateAll(all => all.forEach(one => { one.open = true; }));
		await page.getByLabel(label).setInputFiles(file);
		await page.getByRole('button', { name: button }).click();
		await page.locator('.change, [aria-invalid=true]').first().waitFor();
		await page.addScriptTag({ content: source });
		await judge(tools, page, `${place} with what was brought`);
		await page.locator('button[value=away]').click();
		await page.waitForLoadState();
	}
}

// What stands before a book is open, or where it is not: the way in for people, what is not theirs, a damaged book.
async function doors(tools, house) {
	const texts = [];
	// a book of its own: of one that is open already a second page only tells the first one's address
	house.ask('book', 'backup', path.join(tools.folder, 'quay.db'));
	const quay = await tools.quay('quay', [['Orla Finch', 'manage'], ['Una Swift', 'look']]);
	const page = await tools.phone({ bypassCSP: true });
	for (const password of ['six grey geese', 'four grey geese']) {
		await page.goto(quay.address);
		await judgeHere(tools, page, `the way in, before "${password}"`, texts);
		await page.getByLabel('Your name').fill('Una Swift');
		await page.getByLabel('Your password').fill(password);
		await page.getByRole('button', { name: 'Log in' }).click();
		await page.waitForLoadState();
		await judgeHere(tools, page, `the way in, after "${password}"`, texts);
	}
	for (const place of ['/you', '/new']) {
		await page.goto(new URL(place, quay.address).href);
		await judgeHere(tools, page, `${place} of who may look`, texts);
	}
	const bytes = fs.readFileSync(path.join(tools.folder, 'quay.db'));
	fs.writeFileSync(path.join(tools.folder, 'torn.db'), bytes.fill(0xa5, 4096 * 2, 4096 * 12));
	const torn = await bench(tools, await tools.house('torn', undefined, '--from-menu'));
	tools.check('doors: a damaged book is told of', await torn.title() === "The book can't be opened", await torn.title());
	await judgeHere(tools, torn, 'a damaged book', texts);
	spell(tools, texts);
	tools.away = tools.away.filter(words => !/status of (403|503)/.test(words));
}

// What is printed brings its own style, and the policy lets it through.
async function printed(tools, house) {
	const page = await tools.window(house);
	await onPaper(tools, page);
	for (const place of ['/survey/Quillfish', '/shore-papers/docket?vessel=Quillfish', '/shore-papers/return-list?vessel=Quillfish']) {
		await page.goto(house.origin + place);
		tools.check(`printed: ${place} has its style`, await page.locator('table').first().evaluate(
			table => getComputedStyle(table).borderCollapse === 'collapse'));
	}
	await page.setViewportSize({ width: 360, height: 740 });
	tools.check('printed: on a phone the boxes of a return list have their words', await page.locator('td:has(> .box)').evaluateAll(
		cells => cells.length > 0 && cells.every(cell => ['"Yes"', '"No"'].includes(getComputedStyle(cell, '::before').content))));
	await page.goto(`${house.origin}/locker/LR-1`);
	tools.check('a phone: what is written about a piece does not scroll sideways', await page.locator('section[aria-label^="Records of"]').evaluate(
		records => records.scrollWidth <= records.clientWidth));
}

// What stands on each sheet of a page as it is printed, as poppler reads it: its lines.
async function sheets(tools, page) {
	const file = path.join(tools.folder, 'printed.pdf');
	await page.pdf({ path: file, format: 'A4', preferCSSPageSize: true });
	const read = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
	return read.stdout.split('\f').map(sheet => sheet.split('\n').map(line => line.trim()).filter(line => line !== ''))
		.filter(lines => lines.length > 0);
}

// A bag's head is kept with its pieces, and says how many are packed; the foot is not alone on a sheet.
async function onPaper(tools, page) {
	const winter = await sheets(tools, page);
	const all = winter.flat().join('\n');
	tools.check('paper: no bag\'s head is parted from its pieces', winter.length > 1 &&
		winter.every(lines => !/hand in|^Wed 2 Dec|^Compressed gas|accepts it/.test(lines.at(-1))), winter.map(lines => lines.at(-1)).join(' | '));
	tools.check('paper: how many of each bag are packed stands there', (all.match(/\d of \d packed/g) ?? []).length === 3, all);
	await page.goto(new URL('/saturday', page.url()).href);
	const saturday = await sheets(tools, page);
	for (const [name, found] of [['This winter', winter], ['Saturday', saturday]]) {
		tools.check(`paper: the foot of ${name} is not alone on a sheet`, found.at(-1).length > 2, found.at(-1).join(' | '));
	}
	tools.check('paper: nothing on it asks to be pressed', !saturday.flat().join('\n').includes('Press'));
}

// The pages that commands write to be printed, as they are opened from a disk.
async function written(tools, house, name) {
	const folder = path.join(tools.folder, `written-${name}`);
	fs.mkdirSync(folder);
	house.ask('years', '3', '--html', path.join(folder, 'years.html'));
	house.ask('years', '3', '--compare', '--renew-now', name === 'owner' ? 'EB-1' : 'AJ-EB-1', '--html',
		path.join(folder, 'years-beside.html'));
	const page = await bench(tools, house);
	for (const file of fs.readdirSync(folder).sort()) {
		await page.goto(`file://${path.join(folder, file)}`);
		await page.addScriptTag({ content: source });
		await judge(tools, page, `${name}'s ${file}`);
	}
	await page.close();
	tools.away = tools.away.filter(url => !url.startsWith(`file://${folder}/`));
}

export default async function all(tools) {
	const house = await tools.house('owner');
	house.ask('land', 'DB-1', 'LJ-1', 'FE-1', '--to', 'Holm Quay Safety Service', '--on', '2026-11-25');
	await printed(tools, house);
	await written(tools, house, 'owner');
	await brought(tools, house);
	const [reminder] = house.json('remind');
	await look(tools, house, [...OWNERS, `/reminders/day/${reminder.uid}`]);
	const fleet = await tools.house('fleet');
	const counter = await tools.window(fleet, { viewport: { width: 360, height: 740 } });
	await counter.goto(`${fleet.origin}/years`);
	await counter.getByLabel('Boat').selectOption('Lowtide');
	await counter.getByRole('button', { name: 'Look at her years' }).click();
	tools.check('years: of a fleet each boat can be asked for', await counter.title() === 'Coming years: Lowtide' &&
		await counter.getByLabel('Boat').inputValue() === 'Lowtide', await counter.title());
	await counter.close();
	await written(tools, fleet, 'fleet');
	fleet.ask('booking', 'Amberjay', '--from', '2027-04-03', '--to', '2027-04-10');
	await look(tools, fleet, [...FLEETS, '/booking?vessel=Amberjay&first=2027-04-03'], AS_OWNERS);
	await doors(tools, house);
	const fresh = await tools.house('new');
	await look(tools, fresh, ['/begin']);
}
