// This winter: the owner's bag is packed and handed in, and a day becomes hers.

function bag(page, name) {
	return page.locator('section').filter({ has: page.getByRole('heading', { name, level: 3 }) });
}

async function packAndHandIn(tools, options, words) {
	const house = await tools.house(words.book ?? 'owner');
	const page = await tools.window(house, options);
	const hands = tools.task('the bag packed and handed in, from the first page');
	const holm = bag(page, 'Holm Quay Safety Service');
	const ticks = holm.locator('input[type=checkbox]');
	const pieces = await ticks.count();
	for (let i = 0; i < pieces; i++) {
		await hands.press(ticks.nth(i));
	}
	await hands.press(holm.getByRole('button', { name: 'Handed in today' }));
	await page.getByRole('status').first().waitFor();
	hands.done();
	const ashore = house.json('ashore').map(row => row.tag).filter(tag => !tag.includes('-1-'));
	tools.check(`${words.name}: the bag of eight is packed and handed in with at most ten clicks`,
		pieces === 8 && hands.presses <= 10 && ashore.length >= 8,
		`${pieces} pieces, ${hands.presses} clicks, ashore ${ashore}`);
	tools.check(`${words.name}: the page says that it is ashore`,
		(await page.getByRole('status').first().innerText()).includes('8 pieces are ashore'),
		await page.getByRole('status').first().innerText());
	await page.reload();
	tools.check(`${words.name}: loading the page again says and writes nothing`,
		await page.getByRole('status').count() === 0 && house.json('book', 'journal').length > 0);
}

// What was done is taken back: told first, and then as it was before.
async function takeBack(tools) {
	const house = await tools.house('owner');
	const before = house.ask('show', 'FA-1');
	house.ask('record', 'inspect', 'FA-1', '--on', '2026-11-25');
	const page = await tools.window(house);
	const hands = tools.task('what was done taken back, from the first page');
	await hands.press(page.getByRole('link', { name: 'Safe-keeping' }));
	await hands.press(page.getByRole('link', { name: 'Take it back' }).first());
	const told = await page.locator('.change').innerText();
	tools.check('take back: what it changes is told, and not done yet', told.includes('FA-1') && house.ask('show', 'FA-1') !== before, told);
	await hands.press(page.getByRole('button', { name: 'Take it back' }));
	await page.getByRole('status').first().waitFor();
	hands.done();
	tools.check('take back: the piece is as it was', house.ask('show', 'FA-1') === before, house.ask('show', 'FA-1'));
}

export default async function winter(tools) {
	await packAndHandIn(tools, {}, { name: 'winter' });
	await takeBack(tools);
}
