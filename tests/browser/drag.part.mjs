// This winter: a bag's day is moved by its tag on the strip; a bag that is packed folds away.

function bag(page, name) {
	return page.locator('section').filter({ has: page.getByRole('heading', { name, level: 3 }) });
}

// A bag's tag on the strip, pulled so many days to the right.
async function pull(page, number, days) {
	const lane = page.locator(`.lane[data-bag="bag-${number}"]`);
	const drawing = await lane.locator('svg').boundingBox();
	const tag = await lane.locator('.hold circle').boundingBox();
	const all = (await lane.getAttribute('data-open')).length - 1;
	const x = tag.x + tag.width / 2;
	const y = tag.y + tag.height / 2;
	await page.mouse.move(x, y);
	await page.mouse.down();
	await page.mouse.move(x + drawing.width / all * days, y, { steps: 4 });
	const told = await lane.locator('.told').innerText();
	await page.mouse.up();
	return told;
}

async function dragADay(tools) {
	const house = await tools.house('owner');
	const page = await tools.window(house);
	const number = await page.locator('.lane[data-bag]').evaluateAll(lanes =>
		lanes.findIndex(lane => lane.textContent.includes('Holm')) + 1);
	const day = () => house.json('winter')[0].hand_in.find(one => one.station === 'Holm Quay Safety Service').hand_in;
	const before = house.json('book', 'journal').length;
	// Wednesday 2 Dec and three days are Saturday 5 Dec: Holm Quay takes gear in from Monday to Friday,
	// so the tag stands still on the Friday before
	const told = await pull(page, number, 3);
	await page.waitForLoadState();
	await page.locator('.change').waitFor();
	const changes = await page.locator('.change').innerText();
	tools.check('drag: the tag goes only to days on which the station takes gear in', told === 'Fri, 4 Dec' || told === 'Fri 4 Dec', told);
	tools.check('drag: let go, what the day changes is told and nothing is kept yet',
		changes.includes('hand in 4 Dec 2026 in place of 2 Dec 2026') && day() === '2026-12-02' &&
		house.json('book', 'journal').length === before, changes);
	await page.getByRole('button', { name: 'Keep this day' }).click();
	await page.getByRole('status').first().waitFor();
	tools.check('drag: kept, the day is hers', day() === '2026-12-04', day());
}

async function foldAway(tools) {
	const house = await tools.house('owner');
	const page = await tools.window(house, { viewport: { width: 360, height: 740 }, javaScriptEnabled: false });
	const varne = () => bag(page, 'Varne Sound Raft Loft');
	await varne().locator('input[name="packed.LR-1"]').check();
	await varne().getByRole('button', { name: 'Keep the ticks' }).click();
	tools.check('fold: on a phone a bag that is packed folds away',
		!await varne().locator('input[name="packed.LR-1"]').isVisible() &&
		(await varne().innerText()).includes('1 piece, packed'), await varne().innerText());
	await varne().getByText('1 piece, packed').click();
	tools.check('fold: and is opened by a press', await varne().locator('input[name="packed.LR-1"]').isVisible());
	await varne().getByText('1 piece, packed').click();
	await varne().getByRole('button', { name: 'Handed in today' }).click();
	tools.check('fold: what is folded is handed in all the same', house.json('ashore').some(row => row.tag === 'LR-1'));
	const wide = await tools.window(house, { javaScriptEnabled: false });
	await bag(wide, 'Holm Quay Safety Service').locator('input[type=checkbox]').evaluateAll(ticks => ticks.forEach(tick => { tick.checked = true; }));
	await bag(wide, 'Holm Quay Safety Service').getByRole('button', { name: 'Keep the ticks' }).click();
	tools.check('fold: on a wide screen it stays open',
		await bag(wide, 'Holm Quay Safety Service').locator('input[type=checkbox]').first().isVisible());
}

export default async function drag(tools) {
	await dragADay(tools);
	await foldAway(tools);
}
