// Runs the parts: each has a book of its own, a page of its own and a browser that knows nothing.
import { chromium } from 'playwright-core';
import { execFileSync, spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, '../..');
const [becket, ...words] = process.argv.slice(2);
const whole = words.includes('--whole'); // all that can be judged, in place of what differs
const named = words.filter(word => word !== '--whole');
const DAY = '2026-11-25';
let failed = 0;

// One check, told as the other tests tell theirs.
export function check(words, holds, found = '') {
	failed += holds ? 0 : 1;
	console.log(`${holds ? 'ok' : 'not ok'} ${words}${holds ? '' : `: ${found}`}`);
}

// The two books of the demonstration, with the sheets beside them.
function demonstration(folder) {
	fs.mkdirSync(folder);
	execFileSync('sh', [path.join(root, 'data/demo/make-demo.sh'), becket,
		path.join(folder, 'owner.db'), path.join(folder, 'fleet.db')]);
}

// A book being served: its address, and the program to ask it by.
export class House {
	constructor(folder, name, day = DAY) {
		this.folder = folder;
		this.book = path.join(folder, `${name}.db`);
		this.day = day;
		this.environment = { ...process.env, XDG_RUNTIME_DIR: folder, TZ: 'UTC' };
	}

	words(...words) {
		return ['--book', this.book, '--today', this.day, ...words];
	}

	// What the program says.
	ask(...words) {
		return execFileSync(becket, this.words(...words), { env: this.environment }).toString();
	}

	json(...words) {
		return JSON.parse(this.ask(...words, '--json'));
	}

	async open(...options) {
		this.child = spawn(becket, this.words('page', '--no-browser', ...options),
			{ env: this.environment, stdio: ['ignore', 'pipe', 'inherit'] });
		let said = '';
		for await (const bytes of this.child.stdout) {
			said += bytes;
			const found = said.match(/http:\S+/);
			if (found) {
				this.address = found[0];
				this.origin = new URL(this.address).origin;
				break;
			}
		}
		return this;
	}

	// Another way in, for another browser.
	key() {
		return this.ask('page', '--no-browser').match(/http:\S+/)[0];
	}

	close() {
		this.child?.kill('SIGTERM');
	}
}

function freePort() {
	return new Promise(resolve => {
		const server = net.createServer().listen(0, '127.0.0.1', () => {
			const { port } = server.address();
			server.close(() => resolve(port));
		});
	});
}

const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'becket-browser-'));
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox',
	// a name by which a phone would find this machine
	'--host-resolver-rules=MAP quay.example 127.0.0.1'] });

// A task as a person does it: what is pressed and typed is counted, and told with the seconds it took.
class Task {
	constructor(words) {
		this.words = words;
		this.presses = 0;
		this.fields = 0;
		this.began = performance.now();
	}

	async press(locator) {
		await locator.click();
		this.presses += 1;
	}

	async choose(locator, words) {
		await locator.selectOption(words);
		this.presses += 1;
	}

	// Letter by letter, as fast as they are taken.
	async type(locator, words) {
		await locator.fill('');
		await locator.pressSequentially(words);
		this.fields += 1;
	}

	get seconds() {
		return (performance.now() - this.began) / 1000;
	}

	done() {
		console.log(`# task, ${this.words}: ${this.presses} presses, ${this.fields} fields typed, ${this.seconds.toFixed(1)} s`);
	}
}

// What a part is given: houses, windows, and the requests that left the machine.
class Tools {
	constructor(folder) {
		this.folder = folder;
		this.houses = [];
		this.away = [];
		this.check = check;
		this.whole = whole;
	}

	task(words) {
		return new Task(words);
	}

	async house(name, day, ...options) {
		return this.keep(await new House(this.folder, name, day).open(...options));
	}

	// One that others on the network reach as quay.example, where they log in by name.
	async quay(name, people) {
		const house = new House(this.folder, name);
		const password = path.join(this.folder, 'password');
		fs.writeFileSync(password, 'four grey geese\n', { mode: 0o600 });
		for (const [person, right] of people) {
			house.ask('people', 'add', person, '--right', right, '--password-file', password);
		}
		const port = await freePort();
		return this.keep(await house.open('--people', '--port', `${port}`, '--at', `http://quay.example:${port}`));
	}

	keep(house) {
		this.houses.push(house);
		return house;
	}

	// A page of a browser in which nobody has come in yet.
	async phone(options = {}) {
		const context = await browser.newContext({ viewport: { width: 360, height: 740 }, ...options });
		return context.newPage();
	}

	// A window of a browser of its own, let in to a house.
	async window(house, options = {}) {
		const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, ...options });
		const page = await context.newPage();
		page.on('request', request => {
			if (!request.url().startsWith(house.origin)) {
				this.away.push(request.url());
			}
		});
		page.on('console', message => {
			if (message.type() === 'error' && !message.text().includes('status of 400')) {
				this.away.push(message.text());
			}
		});
		await page.goto(house.key());
		return page;
	}

	close() {
		this.houses.forEach(house => house.close());
	}
}

const parts = fs.readdirSync(here).filter(name => name.endsWith('.part.mjs'))
	.filter(name => named.length === 0 || named.some(word => name.startsWith(word))).sort();
const first = path.join(scratch, 'first');
demonstration(first);
for (const name of parts) {
	const folder = fs.mkdtempSync(path.join(scratch, 'part-'));
	fs.cpSync(first, folder, { recursive: true });
	const began = performance.now();
	const tools = new Tools(folder);
	try {
		await (await import(path.join(here, name))).default(tools);
		check(`${name}: nothing was asked of another machine, and nothing refused`,
			tools.away.length === 0, tools.away.join('; '));
	} catch (error) {
		check(`${name} runs to its end`, false, error.stack.split('\n').slice(0, 6).join(' | '));
	}
	tools.close();
	console.log(`# ${name}: ${((performance.now() - began) / 1000).toFixed(1)} s`);
}
await browser.close();
fs.rmSync(scratch, { recursive: true });
process.exit(failed === 0 ? 0 : 1);
