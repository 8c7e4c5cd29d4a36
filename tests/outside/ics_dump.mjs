// What ical.js, node-ical and ts-ics read in calendar files, as JSON: one object a parser and
// file. To-dos and events alike; a to-do's day is its due day.
// usage: node ics_dump.mjs FILE...
import fs from 'node:fs';
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';
import { convertIcsCalendar } from 'ts-ics';

const pad = (number) => String(number).padStart(2, '0');

function byIcalJs(text) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const date = (time) => (time ? `${time.isDate ? '' : 'no date: '}${time.toString()}` : '');
  const read = (component) => ({
    uid: component.getFirstPropertyValue('uid'),
    day: date(component.getFirstPropertyValue(component.name === 'vtodo' ? 'due' : 'dtstart')),
    end: date(component.getFirstPropertyValue('dtend')),
    summary: component.getFirstPropertyValue('summary'),
    description: component.getFirstPropertyValue('description') ?? '',
    sequence: component.getFirstPropertyValue('sequence'),
    categories: component.getFirstProperty('categories').getValues(),
    alarms: component.getAllSubcomponents('valarm').map((alarm) => [
      alarm.getFirstPropertyValue('action'),
      alarm.getFirstPropertyValue('trigger').toSeconds(),
      alarm.getFirstPropertyValue('description'),
    ]),
  });
  return [...calendar.getAllSubcomponents('vevent'), ...calendar.getAllSubcomponents('vtodo')]
    .map(read);
}

// node-ical gives dates as local midnights, and a trigger as it was written, with its
// parameters where it has some.
function byNodeIcal(text) {
  const date = (time) => (time === undefined ? '' : (time.dateOnly ? '' : 'no date: ')
    + `${time.getFullYear()}-${pad(time.getMonth() + 1)}-${pad(time.getDate())}`);
  return Object.values(nodeIcal.sync.parseICS(text))
    .filter((component) => component.type === 'VEVENT' || component.type === 'VTODO')
    .map((event) => ({
      uid: event.uid,
      day: date(event.type === 'VTODO' ? event.due : event.start),
      end: date(event.type === 'VTODO' ? undefined : event.end),
      summary: event.summary,
      description: event.description ?? '',
      sequence: Number(event.sequence),
      categories: event.categories,
      alarms: event.alarms.map((alarm) => [
        alarm.action,
        ICAL.Duration.fromString(alarm.trigger.val ?? alarm.trigger).toSeconds(),
        alarm.description,
      ]),
    }));
}

// ts-ics leaves a SEQUENCE of 0 out, leaves the escapes in an alarm's text, and gives a to-do its
// alarm's description and no alarm: what it can't say is not compared.
function byTsIcs(text) {
  const calendar = convertIcsCalendar(undefined, text);
  const date = (time) => (time === undefined ? ''
    : (time.type === 'DATE' ? '' : 'no date: ') + time.date.toISOString().slice(0, 10));
  const seconds = ({ before, days = 0, hours = 0 }) => (before ? -1 : 1) * (days * 24 + hours)
    * 3600;
  const both = (item) => ({
    uid: item.uid, summary: item.summary, categories: item.categories,
  });
  const events = (calendar.events ?? []).map((event) => ({
    ...both(event),
    day: date(event.start),
    end: date(event.end),
    description: event.description ?? '',
    sequence: event.sequence ?? 0,
    triggers: (event.alarms ?? []).map((alarm) => [alarm.action, seconds(alarm.trigger.value)]),
  }));
  const todos = (calendar.todos ?? []).map((todo) => ({ ...both(todo), day: date(todo.due) }));
  return [...events, ...todos];
}

const read = process.argv.slice(2).map((path) => {
  const text = fs.readFileSync(path, 'utf8');
  return {
    'ical.js': byIcalJs(text), 'node-ical': byNodeIcal(text), 'ts-ics': byTsIcs(text),
  };
});
console.log(JSON.stringify(read));
