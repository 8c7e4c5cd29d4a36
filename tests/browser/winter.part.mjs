// This winter: the owner's bag is packed and handed in, and a day becomes hers.

// Presses, and counts it.
function counter(page) {
	let clicks = 0;
	return {
		async click(locator) {
			await locator.click();
			clicks += 1;
		},
		count: () => clicks,
	};
}

function bag(page, name) {
	return page.locator('section').filter({ has: page.getByRole('heading', { name, level: 3 }) });
}

async function packAndHandIn(tools, options, words) {
	const house = await tools.house(words.book ?? 'owner');
	const page = await tools.window(house, options);
	const hands = counter(page);
	const holm = bag(page, 'Holm Quay Safety Service');
	const ticks = holm.locator('input[type=checkbox]');
	const pieces = await ticks.count();
	for (let i = 0; i < pieces; i++) {
		await hands.click(ticks.nth(i));
	}
	await hands.click(holm.getByRole('button', { name: 'Handed in today' }));
	await page.getByRole('status').first().waitFor();
	const ashore = house.json('ashore').map(row => row.tag).filter(tag => !tag.includes('-1-'));
	tools.check(`${words.name}: the bag of eight is packed and handed in with at most ten clicks`,
		pieces === 8 && hands.count() <= 10 && ashore.length >= 8,
		`${pieces} pieces, ${hands.count()} clicks, ashore ${ashore}`);
	tools.check(`${words.name}: the page says that it is ashore`,
		(await page.getByRole('status').first().innerText()).includes('8 pieces are ashore'),
		await page.getByRole('status').first().innerText());
	await page.reload();
	tools.check(`${words.name}: loading the page again says and writes nothing`,
		await page.getByRole('status').count() === 0 && house.json('book', 'journal').length > 0);
}

export default async function winter(tools) {
	await packAndHandIn(tools, {}, { name: 'winter' });
}
