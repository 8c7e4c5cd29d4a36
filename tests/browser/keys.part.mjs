// By the keyboard alone, what came after the first pages: a day typed where it could be dragged, find, a card
// opened, a picture kept, ten alike, a folded bag, a list brought, a copy put back.
import fs from 'node:fs';
import path from 'node:path';

const PIXEL = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==', 'base64');

// Tab by tab to what is focused so; fails where it is never met.
async function tabTo(page, wanted, words) {
	for (let presses = 0; presses < 250; presses++) {
		await page.keyboard.press('Tab');
		if (await page.evaluate(`(element => ${wanted})(document.activeElement)`)) {
			return;
		}
	}
	throw new Error(`${words} is not met with the Tab key`);
}

// A file's field is opened with the space bar, and the file is chosen in the machine's own window. That is
// waited for before the tabs: the browser must be told of it, and a key right behind can be quicker.
async function chooseFile(page, name, file) {
	const opened = async () => {
		await tabTo(page, `element.type === 'file' && element.name === '${name}'`, name);
		await page.keyboard.press('Space');
	};
	const [chooser] = await Promise.all([page.waitForEvent('filechooser'), opened()]);
	await chooser.setFiles(file);
}

async function type(page, name, words) {
	await tabTo(page, `element.name === '${name}'`, name);
	await page.keyboard.press('Control+A');
	await page.keyboard.type(words);
}

async function press(page, words, key = 'Enter') {
	await tabTo(page, `element.matches('a, button, summary') && element.textContent.trim().startsWith('${words}')`, words);
	await page.keyboard.press(key);
}

async function dayTyped(tools, house) {
	const page = await tools.window(house);
	await tabTo(page, `element.matches('summary') && element.closest('section').textContent.includes('Holm Quay')`, 'another day');
	await page.keyboard.press('Enter');
	await tabTo(page, `element.name.startsWith('day-')`, 'the day');
	await page.keyboard.press('Control+A');
	await page.keyboard.type('4 Dec 2026');
	await press(page, 'Reckon this day');
	await page.locator('.change').waitFor();
	await press(page, 'Keep this day');
	await page.getByRole('status').first().waitFor();
	const day = house.json('winter')[0].hand_in.find(one => one.station === 'Holm Quay Safety Service').hand_in;
	tools.check('keys: a day is typed in place of dragging', day === '2026-12-04', day);
}

async function foldedBag(tools, house) {
	const page = await tools.window(house, { viewport: { width: 360, height: 740 } });
	await tabTo(page, `element.name === 'packed.LR-1'`, 'the tick');
	await page.keyboard.press('Space');
	await press(page, 'Keep the ticks');
	await page.locator('input[name="packed.LR-1"]').waitFor({ state: 'hidden' });
	await page.emulateMedia({ media: 'print' });
	tools.check('keys: on paper it is not folded', await page.locator('input[name="packed.LR-1"]').isVisible());
	await page.emulateMedia({ media: 'screen' });
	await press(page, '1 piece, packed', 'Space');
	tools.check('keys: a bag that folded is opened', await page.locator('input[name="packed.LR-1"]').isVisible());
}

async function pictureKept(tools, house, page) {
	const label = path.join(tools.folder, 'label.png');
	fs.writeFileSync(label, PIXEL);
	await page.goto(`${house.origin}/locker`);
	await type(page, 'q', 'QF60417');
	await Promise.all([page.waitForEvent('load'), page.keyboard.press('Enter')]);
	await Promise.all([page.waitForURL(/locker\/LR-1/), press(page, 'LR-1')]);
	await page.locator('#piece').waitFor();
	await press(page, 'Keep a picture');
	await chooseFile(page, 'paper', label);
	await press(page, 'Keep it with LR-1');
	await page.locator('.pics img').waitFor();
	tools.check('keys: a piece is found, opened, and a picture kept with it', house.json('papers', 'LR-1').length === 1);
}

async function tenAlike(tools, house, page) {
	const before = house.json('list').length;
	await page.goto(`${house.origin}/locker`);
	await press(page, 'Enter ten alike');
	await page.waitForURL(/new/);
	await type(page, 'kind', 'red hand flare');
	await type(page, 'expires', 'Jun 2030');
	await press(page, 'See what');
	await page.locator('.change').waitFor();
	await press(page, 'Save:');
	await page.getByRole('status').first().waitFor();
	tools.check('keys: ten alike are entered', house.json('list').length === before + 10, house.json('list').length);
}

async function listBrought(tools, house, page) {
	const list = path.join(tools.folder, 'list.csv');
	fs.writeFileSync(list, 'Tag,What,Vessel,Made\nLJ-9,lifejacket auto,Quillfish,2021-02-31\n');
	await page.goto(`${house.origin}/list`);
	await chooseFile(page, 'list', list);
	await press(page, 'Read it');
	await page.locator('[aria-invalid=true]').waitFor();
	const on = await page.evaluate(() => document.activeElement.getAttribute('aria-invalid'));
	tools.check('keys: the first cell to mend has the focus', on === 'true', on);
	await page.keyboard.press('Control+A');
	await page.keyboard.type('Feb 2021');
	await press(page, 'Try again');
	await page.getByRole('button', { name: 'Write it' }).waitFor();
	await press(page, 'Write it');
	await page.waitForURL(/winter/);
	// a month alone is read as its first day, the earliest that it can have been made
	const { made } = house.json('show', 'LJ-9');
	tools.check('keys: a list is brought, mended and written', made === '2021-02-01', made);
}

async function copyPutBack(tools, house, page) {
	const copy = path.join(tools.folder, 'kept.db');
	house.ask('book', 'backup', copy);
	const place = house.json('show', 'TE-1').place;
	house.ask('amend', 'TE-1', '--place', 'chain locker');
	await page.goto(`${house.origin}/safe`);
	await press(page, 'Put a copy back');
	await page.getByLabel('The copy').waitFor();
	await chooseFile(page, 'copy', copy);
	await press(page, 'Look at the copy');
	await page.locator('.change').waitFor();
	await press(page, 'Put it in the place');
	await page.getByRole('status').first().waitFor();
	tools.check('keys: a copy is put back', house.json('show', 'TE-1').place === place);
}

export default async function keys(tools) {
	const house = await tools.house('owner');
	await dayTyped(tools, house);
	await foldedBag(tools, house);
	const page = await tools.window(house);
	await pictureKept(tools, house, page);
	await tenAlike(tools, house, page);
	await listBrought(tools, house, page);
	await copyPutBack(tools, house, page);
}
