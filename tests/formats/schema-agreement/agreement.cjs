// Holds the JSON Schemas against the reader: every case file of the tests, every example and every
// profile is judged by the schemas, and must be judged as the reader judges it. What the reader
// says stands in tests/cases: a file in faulty/ is at fault, with the codes of its .expected file
// (which the reader's own tests hold it to); files elsewhere are good.
//
//   node agreement.cjs REPOSITORY FOLDER_WITH_NODE_MODULES

'use strict';

const fs = require('node:fs');
const path = require('node:path');
const {createRequire} = require('node:module');

const [repository, installed] = process.argv.slice(2).map((folder) => path.resolve(folder));
const Ajv2020 = createRequire(path.join(installed, 'package.json'))('ajv/dist/2020').default;

// Faults that no schema can tell, by code, and why.
const ONLY_READER = {
  'duplicate-key': 'JSON parsers keep one of two members of the same key before a schema sees them',
  'turned-bounds': 'a schema cannot compare two numbers',
  'margins-meet': 'a schema cannot add, nor measure a bed',
  'too-many-points': 'a schema cannot multiply',
  'duplicate-name': 'a schema compares whole items, not one member of each',
  'no-area': 'geometry',
  'self-crossing': 'geometry',
  'hole-outside': 'geometry',
  'holes-overlap': 'geometry',
  'polygons-overlap': 'geometry',
  'bad-wkt': 'well-known text is a language of its own',
  'cannot-read': 'a schema opens no files',
  'refers-to-itself': 'a schema opens no files',
};

// Codes that a schema tells elsewhere, but not in these files.
const MISSED_HERE = {
  'polygon-two-different-points': ['too-few-vertices', 'repeated points do not count'],
  'file-profile-without-offset': ['missing-key', 'the offset could stand in another file'],
};

const problems = [];

// Text without comments; a comment without end stays, for the parser to stumble on.
function withoutComments(text) {
  return text.replace(/"(?:\\.|[^"\\])*"|\/\/[^\r\n]*|\/\*[\s\S]*?\*\//g,
                      (piece) => (piece[0] === '"' ? piece : ' '));
}

function parse(file) {
  const text = new TextDecoder('utf-8', {fatal: true}).decode(fs.readFileSync(file));
  return JSON.parse(withoutComments(text));
}

function validators() {
  const ajv = new Ajv2020({allErrors: true, strict: true, strictRequired: false, allowUnionTypes: true,
                           strictTypes: false});
  const kinds = ['machine', 'probe', 'setup'];
  for (const kind of kinds) {
    const file = path.join(repository, 'profiles/schema', `${kind}.schema.json`);
    ajv.addSchema(JSON.parse(fs.readFileSync(file, 'utf8')));
  }
  return Object.fromEntries(kinds.map((kind) => [kind, ajv.getSchema(`${kind}.schema.json`)]));
}

const validate = validators();

// The files that a document names, with their kinds.
function named(document, kind) {
  const isObject = (value) => value !== null && typeof value === 'object';
  const files = [];
  if (kind === 'setup' && isObject(document)) {
    if (typeof document.machine === 'string') files.push([document.machine, 'machine']);
    if (typeof document.probe === 'string') files.push([document.probe, 'probe']);
    if (isObject(document.probe)) files.push(...named(document.probe, 'probe'));
  } else if (kind === 'probe' && isObject(document) && typeof document.profile === 'string') {
    files.push([document.profile, 'probe']);
  }
  return files.filter(([name]) => name !== '');
}

// What the schemas have against a file and those it names; an empty list where they are content.
function complaints(file, kind, seen = []) {
  if (seen.includes(file) || !fs.existsSync(file)) return [];
  let document;
  try {
    document = parse(file);
  } catch (error) {
    return [`${path.basename(file)} is not JSON: ${error.message}`];
  }
  const found = validate[kind](document)
      ? []
      : validate[kind].errors.map((e) => `${path.basename(file)}${e.instancePath}: ${e.message}`);
  for (const [name, other] of named(document, kind)) {
    found.push(...complaints(path.join(path.dirname(file), name), other, [...seen, file]));
  }
  return found;
}

function filesOf(folder) {
  const names = fs.readdirSync(path.join(repository, folder)).filter((n) => n.endsWith('.json'));
  if (names.length === 0) problems.push(`${folder} holds no JSON files`);
  return names.sort().map((name) => path.join(repository, folder, name));
}

function checkGood(folder, kind) {
  const files = filesOf(folder);
  for (const file of files) {
    for (const complaint of complaints(file, kind)) {
      problems.push(`${folder}: the reader takes it, the schema does not: ${complaint}`);
    }
  }
  return files.length;
}

function codesOf(file) {
  const lines = fs.readFileSync(file.replace(/\.json$/, '.expected'), 'utf8').split('\n');
  return lines.filter((line) => line !== '').map((line) => line.split(' | ')[0]);
}

function checkFaulty(folder) {
  const shown = new Set();
  const missed = new Set();
  const files = filesOf(folder);
  for (const file of files) {
    const name = path.basename(file, '.json');
    const codes = codesOf(file);
    const here = MISSED_HERE[name] ? MISSED_HERE[name][0] : undefined;
    const expressible = codes.filter((code) => !(code in ONLY_READER) && code !== here);
    const rejected = complaints(file, 'setup').length > 0;
    if (rejected && expressible.length === 0) {
      problems.push(`${name}: the schema tells it, though ${codes} should be the reader's alone`);
    }
    if (!rejected && expressible.length > 0) {
      problems.push(`${name}: the reader refuses it (${expressible}), the schema takes it`);
    }
    if (!rejected) {
      codes.forEach((code) => shown.add(code));
      missed.add(name);
    }
  }
  for (const code of Object.keys(ONLY_READER)) {
    if (!shown.has(code)) problems.push(`no case file shows that only the reader tells ${code}`);
  }
  for (const name of Object.keys(MISSED_HERE)) {
    if (!missed.has(name)) problems.push(`${name} is not missed by the schema`);
  }
  return [files.length, missed.size];
}

const good = checkGood('tests/cases/good', 'setup') + checkGood('examples', 'setup') +
             checkGood('profiles/machines', 'machine') + checkGood('profiles/probes', 'probe');
const [faulty, missed] = checkFaulty('tests/cases/faulty');

for (const problem of problems) console.error(problem);
console.log(`${good} good files, ${faulty} faulty ones, ${missed} of these for the reader alone; ` +
            `${problems.length} disagreements`);
process.exitCode = problems.length === 0 ? 0 : 1;
