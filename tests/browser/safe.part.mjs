// Safe-keeping: a copy is saved, put back with what that changes told first, and begins the book of another
// machine; a file that is none is refused.
import fs from 'node:fs';
import path from 'node:path';

async function save(page, file) {
	const [download] = await Promise.all([page.waitForEvent('download'),
		page.getByRole('button', { name: 'Save a copy of the book' }).click()]);
	await download.saveAs(file);
}

async function bring(page, file) {
	await page.getByLabel('The copy').setInputFiles(file);
	await page.getByRole('button', { name: 'Look at the copy' }).click();
	await page.waitForLoadState();
}

async function putBack(tools, house, copy) {
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	const place = house.json('show', 'TE-1').place;
	await page.goto(`${house.origin}/safe`);
	await save(page, copy);
	house.ask('amend', 'TE-1', '--place', 'chain locker');
	await page.reload();
	const changed = await page.locator('main').innerText();
	tools.check('safe: what was typed at a terminal is told as what it changed, days with their month', changed.includes('on 20 Jun 2021') &&
		changed.includes('at a terminal') && !/--|\d-\d\d-\d\d/.test(changed), changed);
	const rare = page.getByText('Put a copy back, or move');
	tools.check('safe: what is rarely done is folded', !await page.getByLabel('The copy').isVisible());
	await rare.click();
	const lie = path.join(tools.folder, 'lie.db');
	fs.writeFileSync(lie, 'this is no book');
	await bring(page, lie);
	tools.check('safe: a file that is no book is refused', (await page.locator('main').innerText()).includes('no copy of a book'),
		await page.locator('main').innerText());
	await page.goto(`${house.origin}/safe`);
	await page.getByText('Put a copy back, or move').click();
	await bring(page, copy);
	const told = await page.locator('.change').innerText();
	tools.check('safe: what putting it back changes is told, and what is lost', told.includes('1 change that is in the book here is not in the copy') &&
		/The copy has 1 boat and \d+ pieces/.test(told), told);
	tools.check('safe: nothing is changed by looking', house.json('show', 'TE-1').place === 'chain locker');
	house.ask('amend', 'TE-2', '--place', 'chain locker');
	await page.getByRole('button', { name: 'Put it in the place of the book' }).click();
	const again = await page.locator('.change').innerText();
	tools.check('safe: what was changed meanwhile is told anew before it is lost', again.includes('2 changes that are in the book here'), again);
	await page.getByRole('button', { name: 'Put it in the place of the book' }).click();
	await page.getByRole('status').first().waitFor();
	const said = (await page.getByRole('status').allInnerTexts()).join(' ');
	const there = Object.create(house, { book: { value: said.match(/kept in (\S+)/)?.[1] ?? '' } });
	const kept = there.book;
	tools.check('safe: put back, the book is as it was', house.json('show', 'TE-1').place === place && house.ask('book', 'check') !== '', said);
	tools.check('safe: what was there is kept beside it', fs.existsSync(kept) && there.json('show', 'TE-2').place === 'chain locker', said);
	tools.check('safe: nothing else is left beside it', fs.readdirSync(tools.folder).every(name => !name.includes('.copy-')));
}

async function another(tools, house, copy) {
	const fresh = await tools.house('another');
	const page = await tools.window(fresh);
	await bring(page, copy);
	tools.check('safe: on another machine the copy becomes the book', (await page.locator('.change').innerText()).includes('There is no book here yet'));
	await page.getByRole('button', { name: 'Put it in the place of the book' }).click();
	await page.waitForURL(/winter/);
	const left = JSON.stringify(house.json('list', '--all'));
	tools.check('safe: and says what the first said', JSON.stringify(fresh.json('list', '--all')) === left);
}

// A calendar file without a terminal, of whom it is asked for.
async function calendar(tools, house) {
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	await page.goto(`${house.origin}/reminders`);
	await page.getByLabel('Reminders of').selectOption('Port Marrin');
	const [download] = await Promise.all([page.waitForEvent('download'),
		page.getByRole('button', { name: 'Save a calendar file' }).click()]);
	const file = path.join(tools.folder, 'port-marrin.ics');
	await download.saveAs(file);
	const events = fs.readFileSync(file, 'utf8');
	tools.check('reminders: a calendar file of one base is saved', download.suggestedFilename() === 'becket-reminders.ics' &&
		events.startsWith('BEGIN:VCALENDAR') && events.includes('Amberjay') && !events.includes('Lowtide'), events.slice(0, 200));
	await page.getByLabel('Address for').selectOption('Port Marrin');
	await page.getByRole('button', { name: 'Make an address' }).click();
	await page.getByText('There is an address for the reminders of Port Marrin').waitFor();
	const made = await page.getByText('webcal://').allTextContents();
	tools.check('reminders: an address of one base is made', made.length === 1 && made[0].startsWith('webcal://'), made.join());
	tools.check('reminders: a long address fits a phone', await page.evaluate(() => document.documentElement.scrollWidth) <= 360);
	await page.getByRole('button', { name: 'End the address of Port Marrin for good' }).click();
	await page.getByText('Nothing is at that address any more').waitFor();
	tools.check('reminders: and ended', await page.getByText('webcal://').count() === 0);
}

// How one is reminded, and one reminder's day, chosen on a phone: told before it is kept.
async function choose(tools, house) {
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	const fits = async words => tools.check(`reminders: ${words} fits a phone`, await page.evaluate(() => document.documentElement.scrollWidth) <= 360);
	await page.goto(`${house.origin}/reminders`);
	await page.getByRole('link', { name: 'Choose otherwise' }).click();
	await page.getByLabel('Your day of the week').selectOption('Friday');
	await page.getByLabel('One more sort of gear').fill('EPIRB');
	await page.getByLabel('How many days before', { exact: true }).fill('40');
	await page.getByRole('button', { name: 'See what it changes' }).click();
	const told = await page.locator('.change').innerText();
	tools.check('reminders: what a choice changes is told', told.includes('is Friday in place of Saturday') && told.includes('EPIRB: 40 days before'), told);
	await fits('what is chosen');
	await page.getByRole('button', { name: 'Save: remind me so' }).click();
	await page.getByText('You are reminded so from now on').waitFor();
	tools.check('reminders: what was chosen stands there', (await page.locator('main').innerText()).includes('EPIRB: 40 days before'));
	await page.getByRole('link', { name: /Another day for it.*Hand in/ }).first().click();
	await page.getByLabel('What is said').selectOption({ label: 'the station said this day' });
	await page.getByLabel('Day', { exact: true }).fill('9 Dec 2026');
	await page.getByRole('button', { name: 'See what it changes' }).click();
	await fits('a day');
	await page.getByRole('button', { name: 'Save: that is its day' }).click();
	await page.getByText('The station said 9 Dec 2026').waitFor();
	tools.check('reminders: the day is the station\'s', house.json('remind').some(row => row.day === '2026-12-09' && row.planned));
}

// The counter's booking: entered from its day, a person more, and taken out, by whoever stands there with a phone.
async function counter(tools, house) {
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	const hands = tools.task('a booking entered, changed and taken out');
	const save = async words => {
		await hands.press(page.getByRole('button', { name: 'See what it changes' }));
		const told = await page.locator('.change').innerText();
		await hands.press(page.getByRole('button', { name: `Save: ${words}` }));
		await page.getByRole('status').first().waitFor();
		return told;
	};
	await page.goto(`${house.origin}/saturday?on=2027-04-03`);
	await hands.press(page.getByRole('link', { name: 'Enter a booking' }));
	await hands.choose(page.getByLabel('Boat'), 'Foxmere');
	await hands.type(page.getByLabel('The day they leave'), '10 Apr 2027');
	await hands.type(page.getByLabel('How many aboard'), '6');
	await save('enter the booking');
	const change = page.getByRole('link', { name: /Change the booking\s+of Foxmere/ });
	await hands.press(change);
	await hands.type(page.getByLabel('How many aboard'), '7');
	const told = await save('change the booking');
	tools.check('saturday: a booking is changed, and told with what it was', told.includes('7 persons; it was') &&
		house.json('booking')[0].persons === 7, told);
	await hands.press(change);
	await hands.choose(page.getByLabel('What is to become of it'), { label: 'taken out' });
	tools.check('saturday: the form of a booking fits a phone', await page.evaluate(() => document.documentElement.scrollWidth) <= 360);
	await save('take it out');
	hands.done();
	tools.check('saturday: and taken out', house.json('booking').length === 0);
}

// A book that is damaged, opened from the menu where nobody reads what is printed: the page says why, and a copy
// that was saved takes its place.
async function shut(tools, copy) {
	const torn = path.join(tools.folder, 'torn.db');
	const bytes = fs.readFileSync(copy);
	bytes.fill(0xa5, 4096 * 2, 4096 * 12);
	fs.writeFileSync(torn, bytes);
	const house = await tools.house('torn', '2026-11-25', '--from-menu');
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	tools.check('safe: opened from the menu, a damaged book is told of in the browser', await page.getByRole('heading', { level: 1 }).innerText() === "The book can't be opened" &&
		(await page.locator('main').innerText()).includes('damaged'), await page.locator('main').innerText());
	await page.getByText('Put a copy in its place').click();
	await bring(page, copy);
	tools.check('safe: what is here can not be read, which is told', (await page.locator('.change').innerText()).includes("can't be read"));
	await page.getByRole('button', { name: 'Put it in the place of the book' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check('safe: the copy took its place, and what was there is kept', house.json('list').length > 40 && fs.existsSync(`${torn}.before-restore`));
	tools.away = tools.away.filter(words => !words.includes('status of 503'));
}

export default async function safe(tools) {
	const house = await tools.house('owner');
	const copy = path.join(tools.folder, 'saved.db');
	await putBack(tools, house, copy);
	await another(tools, house, copy);
	await choose(tools, house);
	const fleet = await tools.house('fleet');
	await calendar(tools, fleet);
	await counter(tools, fleet);
	await shut(tools, copy);
}
