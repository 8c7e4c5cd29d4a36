// What ical.js and node-ical read in calendar files, as JSON: one object a parser and file.
// usage: node ics_dump.mjs FILE...
import fs from 'node:fs';
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';

const pad = (number) => String(number).padStart(2, '0');

function byIcalJs(text) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents('vevent').map((component) => {
    const event = new ICAL.Event(component);
    const date = (time) => `${time.isDate ? '' : 'no date: '}${time.toString()}`;
    return {
      uid: event.uid,
      day: date(event.startDate),
      end: date(event.endDate),
      summary: event.summary,
      description: event.description ?? '',
      sequence: event.sequence,
      categories: component.getFirstProperty('categories').getValues(),
      alarms: component.getAllSubcomponents('valarm').map((alarm) => [
        alarm.getFirstPropertyValue('action'),
        alarm.getFirstPropertyValue('trigger').toSeconds(),
        alarm.getFirstPropertyValue('description'),
      ]),
    };
  });
}

// node-ical gives dates as local midnights, and a trigger as it was written.
function byNodeIcal(text) {
  const date = (time) => (time.dateOnly ? '' : 'no date: ')
    + `${time.getFullYear()}-${pad(time.getMonth() + 1)}-${pad(time.getDate())}`;
  return Object.values(nodeIcal.sync.parseICS(text))
    .filter((component) => component.type === 'VEVENT')
    .map((event) => ({
      uid: event.uid,
      day: date(event.start),
      end: date(event.end),
      summary: event.summary,
      description: event.description ?? '',
      sequence: Number(event.sequence),
      categories: event.categories,
      alarms: event.alarms.map((alarm) => [
        alarm.action, ICAL.Duration.fromString(alarm.trigger).toSeconds(), alarm.description,
      ]),
    }));
}

const read = process.argv.slice(2).map((path) => {
  const text = fs.readFileSync(path, 'utf8');
  return { 'ical.js': byIcalJs(text), 'node-ical': byNodeIcal(text) };
});
console.log(JSON.stringify(read));
