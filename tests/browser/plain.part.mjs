// The same without JavaScript, and by the keyboard alone.

function bag(page, name) {
	return page.locator('section').filter({ has: page.getByRole('heading', { name, level: 3 }) });
}

async function withoutScript(tools) {
	const house = await tools.house('owner');
	const page = await tools.window(house, { javaScriptEnabled: false, viewport: { width: 360, height: 740 } });
	const varne = bag(page, 'Varne Sound Raft Loft');
	await varne.getByText('Another day for this bag').click();
	await varne.getByLabel('Hand in on').fill('1 Jan 2027');
	await varne.getByRole('button', { name: 'Reckon this day' }).click();
	const closed = await bag(page, 'Varne Sound Raft Loft').innerText();
	tools.check('plain: a day on which the station is closed is told as one that does not serve',
		closed.includes('does not serve'), closed.slice(-400));
	await bag(page, 'Varne Sound Raft Loft').getByLabel('Hand in on').fill('no day');
	await bag(page, 'Varne Sound Raft Loft').getByRole('button', { name: 'Reckon another day' }).click();
	tools.check('plain: what is no day is told at its field, and kept',
		await page.locator('[aria-invalid=true]').inputValue() === 'no day');
	await bag(page, 'Varne Sound Raft Loft').getByLabel('Hand in on').fill('9 Dec 2026');
	await bag(page, 'Varne Sound Raft Loft').getByRole('button', { name: 'Reckon this day' }).click();
	const changes = await page.locator('.change').innerText();
	tools.check('plain: what another day changes stands there before it is kept',
		changes.includes('hand in 9 Dec 2026 in place of 2 Dec 2026') &&
		house.json('winter')[0].hand_in.every(trip => trip.hand_in === '2026-12-02'), changes);
	await page.getByRole('button', { name: 'Keep this day' }).click();
	const trip = house.json('winter')[0].hand_in.find(one => one.station === 'Varne Sound Raft Loft');
	tools.check('plain: kept, the day is hers everywhere', trip.hand_in === '2026-12-09', JSON.stringify(trip));
	const tick = page.locator('input[name="did.inspect.FA-1"]');
	await tick.check();
	await page.getByRole('button', { name: 'Done today' }).click();
	tools.check('plain: what one did oneself is recorded',
		house.ask('show', 'FA-1').includes('25 Nov 2026'), house.ask('show', 'FA-1'));
}

// Tab by tab to what is focused so; false when it is not met.
async function tabTo(page, wanted) {
	for (let presses = 0; presses < 200; presses++) {
		await page.keyboard.press('Tab');
		if (await page.evaluate(wanted)) {
			return true;
		}
	}
	return false;
}

async function byKeyboard(tools) {
	const house = await tools.house('owner');
	const page = await tools.window(house);
	await page.keyboard.press('Tab');
	tools.check('keyboard: the first thing met leads past the index',
		await page.evaluate(() => document.activeElement.className === 'skip'));
	await page.keyboard.press('Enter');
	for (const tag of ['DB-1', 'FE-1']) {
		await tabTo(page, `document.activeElement.name === 'packed.${tag}'`);
		await page.keyboard.press('Space');
	}
	const outlined = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle !== 'none');
	tools.check('keyboard: what has the focus shows it', outlined);
	await tabTo(page, `document.activeElement.textContent.startsWith('Handed in today')`);
	await page.keyboard.press('Enter');
	await page.getByRole('status').first().waitFor();
	const ashore = house.json('ashore').map(row => row.tag);
	tools.check('keyboard: a bag is ticked and handed in without a mouse',
		ashore.includes('DB-1') && ashore.includes('FE-1') && !ashore.includes('FE-2'), ashore.join());
}

export default async function plain(tools) {
	await withoutScript(tools);
	await byKeyboard(tools);
}
