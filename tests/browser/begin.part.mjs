// First start: a person without a book begins one, and goes on.

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
}
