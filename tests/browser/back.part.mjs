// It came back: a bag of eight is entered, its consequence shown before it is written.

const HOLM = 'Holm Quay Safety Service';

// The bag as it was handed in, by the program.
function handIn(house) {
	const winter = house.json('winter')[0];
	const tags = new Set(winter.hand_in.find(trip => trip.station === HOLM).items
		.map(item => item.tag).filter(tag => !/-(FH|LT|CY)$/.test(tag)));
	house.ask('land', ...tags, '--to', HOLM, '--on', '2026-11-25');
	return [...tags];
}

export default async function back(tools) {
	const house = await tools.house('owner', '2026-12-09');
	const tags = handIn(house);
	const before = house.json('book', 'journal').length;
	const page = await tools.window(house);
	const hands = tools.task('a bag of eight that came back');
	await hands.press(page.getByRole('link', { name: 'It came back' }).first());
	await hands.type(page.getByLabel('Work done on'), '8 Dec 2026');
	for (const tag of tags) {
		const row = page.locator('li.row').filter({ has: page.getByText(tag, { exact: true }) });
		const result = tag === 'LJ-5' ? 'condemned' : tag === 'LJ-6' ? 'shorter date' : 'passed';
		await hands.press(row.getByLabel(result, { exact: true }));
		await hands.type(row.getByLabel('Number of the paper'), `HQ-26-${tag}`);
		await hands.type(row.getByLabel('Price'), '29.00');
	}
	await hands.press(page.getByRole('button', { name: 'Reckon what it changes' }));
	const wanting = page.locator('[aria-invalid=true]');
	tools.check('back: a shorter date without its date is asked for at its field',
		await wanting.count() === 1 && await wanting.getAttribute('name') === 'n.LJ-6' &&
		(await page.locator('.say').innerText()).startsWith('1 thing is wanting'),
		`${await wanting.count()} ${await page.locator('.say').innerText()}`);
	tools.check('back: what was typed is kept', await page.locator('[name="c.LJ-1"]').inputValue() === 'HQ-26-LJ-1');
	await hands.type(wanting, '8 Dec 2027');
	await hands.type(page.locator('[name="m.LJ-1-FH"]'), '2029-06');
	await hands.type(page.locator('[name="m.LJ-1-LT"]'), '2031-04');
	await hands.press(page.getByRole('button', { name: 'Reckon what it changes' }));
	const changes = await page.locator('.change').innerText();
	tools.check('back: what saving changes stands there first',
		changes.includes('7 pieces stand aboard again') && changes.includes('1 is gone for good: LJ-5') &&
		changes.includes('EUR 232.00'), changes);
	const shorter = page.locator('li.row').filter({ has: page.getByText('LJ-6', { exact: true }) });
	const then = await shorter.locator('.then-line').innerText();
	tools.check('back: the shorter date binds, and the rule’s is told',
		then.includes('Next service 8 Dec 2027: the paper binds'), then);
	tools.check('back: nothing is written before it is saved',
		house.json('book', 'journal').length === before && house.json('ashore').length > 0);
	// the book changes meanwhile, by the command line
	house.ask('return', 'DB-1', '--result', 'not-done', '--on', '2026-12-09');
	await hands.press(page.getByRole('button', { name: 'Save:' }));
	tools.check('back: what would come out otherwise than shown is not written but shown anew',
		(await page.locator('.change').innerText()).includes('6 pieces stand aboard again') &&
		house.json('ashore').some(row => row.tag === 'LJ-1'), await page.locator('.change').innerText());
	await hands.press(page.getByRole('button', { name: 'Save:' }));
	await page.getByRole('status').first().waitFor();
	tools.check('back: a bag of eight is entered in less than two minutes of typing',
		hands.seconds < 120, `${hands.seconds} s`);
	hands.done();
	tools.check('back: saved, nothing of it is ashore',
		house.json('ashore').filter(row => tags.includes(row.tag)).length === 0, house.ask('ashore'));
	const due = house.json('due', '--all');
	const day = (tag, task) => due.find(row => row.tag === tag && row.task === task)?.due;
	tools.check('back: the dates are those of the papers and the rules',
		day('LJ-6', 'service') === '2027-12-08' && day('LJ-1-FH', 'renew') === '2029-06-30' &&
		day('LJ-1-LT', 'renew') === '2031-04-30' && !due.some(row => row.tag === 'LJ-5'),
		JSON.stringify(due.filter(row => /LJ-[156]/.test(row.tag))));
}
