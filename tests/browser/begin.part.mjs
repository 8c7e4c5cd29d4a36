// First start: a person without a book begins one, and goes on to the first list.
import fs from 'node:fs';
import path from 'node:path';

const LIST = `Item,Mfg date,Expiry date
Red hand flares,2024,2027-08
Parachute rockets,2024,2027-08
Lifejacket auto,2021,
Foam extinguisher,2022,
First aid kit,,2028-06
`;

async function firstList(tools, house, page) {
	const links = page.locator('main .go');
	const [left, right] = [await links.nth(0).boundingBox(), await links.nth(1).boundingBox()];
	tools.check('begin: the two ways to go on stand apart',
		right.x >= left.x + left.width + 8 || right.y >= left.y + left.height, JSON.stringify([left, right]));
	const file = path.join(tools.folder, 'first.csv');
	fs.writeFileSync(file, LIST);
	await page.getByRole('link', { name: 'Bring a list you have' }).click();
	await page.getByLabel('A spreadsheet').setInputFiles(file);
	await page.getByRole('button', { name: 'Read it' }).click();
	const before = await page.locator('main').innerText();
	tools.check('begin: how the list was read stands there before it is written',
		before.includes('How it was read') && before.includes('"Parachute rockets" taken as'), before);
	await page.getByRole('button', { name: 'Write it: 5 added' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check('begin: what was written is told in one line',
		(await page.getByRole('status').allInnerTexts()).join() === 'It is written: 5 added, 0 changed.',
		await page.locator('main').innerText());
	await page.goto(`${house.origin}/years`);
	const years = await page.locator('main').innerText();
	await page.goto(`${house.origin}/years?skip=2027`);
	const other = await page.locator('main').innerText();
	tools.check('begin: without any price the years tell no money, nor does what is tried', years.includes("can't be told") &&
		!years.includes('0.00') && other.includes("What it costs can't be told") && !other.includes('0.00'), years + other);
}

export default async function begin(tools) {
	const house = await tools.house('new');
	const page = await tools.window(house, { viewport: { width: 360, height: 740 } });
	tools.check('begin: without a book the first page asks for the boat',
		await page.getByRole('heading', { level: 1 }).innerText() === 'A book for your boat');
	tools.check('begin: nothing leads elsewhere while there is no book', await page.locator('nav').count() === 0);
	tools.check('begin: a winter stands there to begin with', await page.locator('#from-month').inputValue() === '11' &&
		await page.locator('#to-month').inputValue() === '3');
	await page.getByRole('button', { name: 'Begin the book' }).click();
	tools.check('begin: her name is asked for at its field',
		await page.locator('[aria-invalid=true]').getAttribute('name') === 'boat');
	await page.getByLabel('Her name').fill('<b>Quill & "fish"</b>');
	await page.getByLabel('Where she lies').fill('Port Marrin');
	await page.getByLabel('Rules beside').selectOption('uk-private');
	await page.getByLabel('Laid up from, day').fill('31');
	await page.getByLabel('Laid up from, month').selectOption('11');
	await page.getByRole('button', { name: 'Begin the book' }).click();
	tools.check('begin: a day that is none is told, and what was typed is kept',
		await page.locator('[aria-invalid=true]').getAttribute('name') === 'from-day' &&
		await page.getByLabel('Where she lies').inputValue() === 'Port Marrin');
	await page.getByLabel('Laid up from, day').fill('15');
	await page.getByLabel('Saturday').check();
	await page.getByLabel('First station').fill('Holm Quay');
	await page.getByRole('button', { name: 'Begin the book' }).click();
	await page.getByRole('status').first().waitFor();
	const vessels = house.ask('vessel');
	tools.check('begin: the book has her as she was told',
		/15 Nov to 31[^]*Mar/.test(vessels) && /<b>Quill & "fish"<\/b>/.test(vessels) &&
		vessels.includes('uk-private'), vessels);
	tools.check('begin: and the station', house.ask('station').includes('Holm Quay'), house.ask('station'));
	tools.check('begin: no mark of her name is taken for markup', await page.locator('dd b').count() === 0);
	tools.check('begin: the page says how to go on',
		await page.getByRole('heading', { name: 'No gear is in the book yet' }).count() === 1);
	tools.check('begin: the journal names the page and the person',
		house.ask('book', 'journal').includes('page: began the book'), house.ask('book', 'journal'));
	await firstList(tools, house, page);
}
