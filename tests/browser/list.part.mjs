// Bring a list: one as people keep it, not clear in four ways, is cleared up and written.
import fs from 'node:fs';
import path from 'node:path';

const LIST = `Tag;What it is;Where;Made;Colour
LJ-9;lifejacket auto;wet locker;05/04/2021;red
FE-9;Pulverlöscher dry;companionway;06/05/2022;white
TOTAL;;;;
`;

// Two cells that can't be read, and a column that is taken for another than is meant.
const SLIPS = `Tag,What,Vessel,Where,Made,Code
LJ-9,lifejacket auto,Quillfish,wet locker,2021-02-31,A1
FE-9,powder extinguisher,Quillfish,companionway,2022-05-06,A2
LJ-8,lifejacket auto,Quillfish,saloon,last year,A3
`;

async function mendInPlace(tools) {
	const house = await tools.house('fleet');
	house.ask('vessel', 'Quillfish', '--base', 'Port Marrin');
	const file = path.join(tools.folder, 'slips.csv');
	fs.writeFileSync(file, SLIPS);
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	const before = house.ask('book', 'journal');
	await page.goto(`${house.origin}/list`);
	const hands = tools.task('a list with two bad cells and a column taken otherwise, mended and written');
	await page.getByLabel('A spreadsheet').setInputFiles(file);
	await hands.press(page.getByRole('button', { name: 'Read it' }));
	if (await page.locator('select[name="map.Code"]').count() > 0) {
		await hands.choose(page.locator('select[name="map.Code"]'), 'serial');
		await hands.press(page.getByRole('button', { name: 'Try again' }));
	}
	const bad = page.locator('[aria-invalid=true]');
	tools.check('mend: each bad cell has a field, with what stands there', await bad.count() === 2 &&
		await bad.nth(0).inputValue() === '2021-02-31' && await bad.nth(1).inputValue() === 'last year', `${await bad.count()}`);
	tools.check('mend: its row stands beside it, the cell framed',
		(await page.locator('.sheetrow').first().innerText()).includes('LJ-9') &&
		(await page.locator('.sheetrow').first().locator('.bad').innerText()).includes('2021-02-31'));
	tools.check('mend: how each column is read stands there with what is in it first',
		(await page.locator('main').innerText()).includes('How your columns are read') &&
		await page.locator('select[name="map.Where"]').evaluate(choice => choice.selectedOptions[0].textContent) === 'where aboard it is kept');
	const words = page.locator('select[name="means.lifejacket auto"]');
	tools.check('mend: how words are read stands beside what they become, with how many rows', await page.getByRole('heading', { name: 'How your words are read' }).count() === 1 &&
		await words.evaluate(choice => choice.selectedOptions[0].textContent) === 'automatic inflatable lifejacket' &&
		(await page.locator('li.row', { has: words }).innerText()).startsWith('2 rows'), await page.locator('main').innerText());
	await hands.type(bad.nth(0), '2021-02-28');
	await hands.press(page.getByRole('button', { name: 'Try again' }));
	tools.check('mend: what is mended is asked no more, what is not is asked again', await bad.count() === 1 &&
		await bad.inputValue() === 'last year' && await page.locator('input[type=hidden][name="fix.2.4"]').inputValue() === '2021-02-28');
	await hands.type(bad, '');
	await hands.press(page.getByRole('button', { name: 'Try again' }));
	await page.locator('.foot').waitFor(); // the whole page, on a busy machine too
	const said = await page.locator('main').innerText();
	tools.check('mend: mended, their dates stand there before anything is written',
		said.includes('What they would become') && said.includes('3 to be added') && house.ask('book', 'journal') === before, said.slice(0, 600));
	await hands.choose(page.locator('select[name="map.Where"]'), 'notes');
	await hands.choose(words, 'lifejacket-manual');
	await hands.press(page.getByRole('button', { name: 'Read it again' }));
	tools.check('mend: other words are read as they were said', await words.evaluate(choice => choice.selectedOptions[0].textContent) === 'manual inflatable lifejacket');
	await hands.press(page.getByRole('button', { name: 'Write it' }));
	await page.getByRole('status').first().waitFor();
	hands.done();
	const row = house.json('show', 'LJ-9');
	tools.check('mend: written as it was mended, the column as it was said', row.kind === 'lifejacket-manual' && row.made === '2021-02-28' && row.place === '' &&
		row.notes.includes('wet locker') && house.json('show', 'LJ-8').made === null, JSON.stringify(row));
}

export default async function list(tools) {
	await mendInPlace(tools);
	const house = await tools.house('owner');
	const file = path.join(tools.folder, 'my list.csv');
	fs.writeFileSync(file, LIST);
	const page = await tools.window(house, { javaScriptEnabled: false });
	const before = house.ask('book', 'journal');
	await page.getByRole('link', { name: 'Bring a list' }).first().click();
	await page.getByLabel('A spreadsheet').setInputFiles(file);
	await page.getByRole('button', { name: 'Read it' }).click();
	const asked = await page.locator('main').innerText();
	tools.check('list: what is not clear is asked, with what stands in it',
		asked.includes('Colour') && asked.includes('red') && asked.includes('05/04/2021'), asked);
	tools.check('list: in the words of the page, and how much there is to do in the sentence', !asked.includes('--') &&
		/\d things? (is|are) to be told once for the whole list/.test(asked), asked);
	for (let turn = 0; turn < 6 && await page.getByRole('button', { name: 'Try again' }).count() > 0; turn++) {
		for (const [name, value] of [['order', 'day'], ['means.Pulverlöscher dry', 'extinguisher-powder'],
			['map.Colour', 'ignore'], ['means.TOTAL', 'no-gear'], ['map.What it is', 'what it is'], ['map.Where', 'where aboard it is kept']]) {
			const choice = page.locator(`select[name="${name}"]`);
			if (await choice.count() > 0) {
				await choice.selectOption(value);
			}
		}
		for (const tick of await page.locator('main input[type=checkbox]').all()) {
			await tick.check();
		}
		await page.getByLabel('Lines to pass over').fill('4');
		await page.getByRole('button', { name: 'Try again' }).click();
	}
	const said = await page.locator('main').innerText();
	tools.check('list: cleared up, what they would become stands there with its dates',
		said.includes('What they would become') && said.includes('FE-9') && said.includes('powder extinguisher'), said);
	tools.check('list: what writing changes stands there, and nothing is written yet',
		said.includes('2 to be added') && house.ask('book', 'journal') === before, said.slice(-600));
	await page.getByRole('button', { name: 'Write it' }).click();
	await page.getByRole('status').first().waitFor();
	const shown = house.json('list').filter(row => ['LJ-9', 'FE-9'].includes(row.tag));
	tools.check('list: written, it is in the book as it was shown',
		shown.length === 2 && shown.some(row => row.kind === 'extinguisher-powder' && row.made === '2022-05-06'),
		JSON.stringify(shown));
}
