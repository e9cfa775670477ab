// Holds leeway.wasm against the native program, byte for byte:
//  - against tests/cli/approved/: what check, fit, explain and bracket print of setups;
//  - against the native engine: the answers for random setups (what takes long, of every fiftieth).
// Requests that mean harm must give faults in words, and a session that goes on.
//
//   node same.cjs ROOT LEEWAY.WASM NATIVE-ENGINE [SETUPS]
"use strict";
const fs = require("fs");
const path = require("path");
const {spawnSync} = require("child_process");
const {openEngine} = require("./engine.cjs");

const [root, wasm, native] = process.argv.slice(2);
const setups = Number(process.argv[5] ?? 500);
let wrong = 0;
function complain(what) {
  if (++wrong <= 20) console.error(what);
}

// Words as a shell would split them; nothing where it would do more than that.
function words(line) {
  if (/[|<>$`;&*]/.test(line)) return undefined;
  const found = line.match(/'[^']*'|[^\s']+/g) ?? [];
  return found.map((word) => word.replace(/^'|'$/g, ""));
}

const flags = new Set(["all-limits", "long", "uniform", "inside", "without-setup"]);
const fields = new Set(["bed", "travel", "offset", "uncertainty", "spot", "edge-distance", "trigger-height",
                        "travel-height", "grid", "margins", "bounds", "margins-from", "grid-frame", "home", "name",
                        "origin"]);
const lists = new Set(["obstacle", "part"]);
// Options of the command that are no members of a request, or mean files: of some the page asks in
// another way, others it does not offer.
const others = new Set(["output", "write", "save", "candidates", "force", "answer", "refused", "accepted", "probe",
                        "leeway", "tolerance"]);

function steps(text) {
  const found = /^(-?[\d.]+)\.\.(-?[\d.]+)\/(\d+)$/.exec(text);
  return found && found.slice(1).map(Number);
}

// A run of the command as requests: to take the setup, and what to do. Nothing where it is none of ours.
function asRequests(run) {
  const [command, ...rest] = words(run) ?? [];
  if (!["check", "fit", "explain", "bracket"].includes(command)) return undefined;
  const todo = {do: command};
  const form = {};
  const files = [];
  for (let i = 0; i < rest.length; ++i) {
    if (!rest[i].startsWith("--")) {
      files.push(rest[i]);
      continue;
    }
    const [name, inline] = rest[i].slice(2).split("=", 2);
    if (others.has(name) || inline !== undefined) return undefined;
    if (flags.has(name)) {
      if (name !== "without-setup") todo[name] = true;
      else form.used = true;
      continue;
    }
    if (name === "skip-outside") {
      form[name] = true;
      continue;
    }
    const value = rest[++i];
    if (lists.has(name)) form[name] = [...(form[name] ?? []), value];
    else if (fields.has(name)) form[name] = value;
    else if (name === "point") todo.point = value.split(",").map(Number);
    else if (name === "map") {
      const [x, y] = value.split(",").map(steps);
      if (!x || !y) return undefined;
      todo.map = {x, y};
    } else todo[name] = value;
  }
  if (form.used && files.length === 0) {
    delete form.used;
    return {first: {do: "form", fields: form}, todo};
  }
  if (form.used || Object.keys(form).length > 0 || files.length === 0) return undefined;
  for (const file of files) {
    if (!fs.existsSync(path.join(root, file)) || !file.endsWith(".json")) return undefined;
  }
  // A setup from before is of the command alone.
  if (command === "explain" && files.length > 1) return undefined;
  return {first: read(files[0]), todo, more: files.slice(1)};
}

const profiles = {};
for (const folder of ["profiles/machines", "profiles/probes", "tests/cli/files"]) {
  for (const name of fs.readdirSync(path.join(root, folder))) {
    if (name.endsWith(".json")) profiles[`${folder}/${name}`] = fs.readFileSync(path.join(root, folder, name), "utf8");
  }
}
function read(file) {
  return {do: "read", name: file, text: fs.readFileSync(path.join(root, file), "utf8"), files: profiles};
}

function approved(open) {
  const folder = path.join(root, "tests/cli/approved");
  let held = 0;
  for (const name of fs.readdirSync(folder)) {
    const text = fs.readFileSync(path.join(folder, name), "utf8");
    const line = text.slice(0, text.indexOf("\n"));
    const body = text.slice(line.length + 1);
    const end = body.lastIndexOf("--- standard error\n");
    const status = Number(/--- exit status (\d)\n$/.exec(body)?.[1] ?? 9);
    const run = asRequests(line.replace(/^\$ leeway /, ""));
    if (!run || status > 1) continue;
    const session = open();
    const taken = session.call(run.first);
    if (!taken.ok) complain(`${name}: ${JSON.stringify(taken.faults)}`);
    if (run.more?.length > 0) {
      run.todo.setups = run.more.map((file) => {
        const other = open();
        other.call(read(file));
        const saved = other.call({do: "save"}).text;
        other.close();
        return saved;
      });
    }
    const answer = session.call(run.todo);
    session.close();
    if (!answer.ok) complain(`${name}: ${JSON.stringify(answer.faults)}`);
    else if (answer.text !== body.slice(0, end)) complain(`${name}: the page says something else`);
    else if (answer.status !== status) complain(`${name}: status ${answer.status}`);
    ++held;
  }
  if (held < 100) complain(`only ${held} approved runs were found`);
  return held;
}

function natively(requests) {
  const run = spawnSync(native, [], {input: requests.map((one) => JSON.stringify(one)).join("\n") + "\n",
                                     maxBuffer: 1 << 30});
  if (run.status !== 0) throw new Error(`the native engine ended with ${run.status ?? run.signal}`);
  return run.stdout.toString("utf8").trimEnd().split("\n");
}

const quick = [{do: "check", format: "json"}, {do: "frame"}];
const slow = [{do: "fit", format: "json"}, {do: "explain", format: "json"}, {do: "bracket", format: "json"}];

// In a setup or two of five hundred a vertex of a region lies a micrometre elsewhere: the C++ libraries
// of the two order equal things differently. Areas may differ by what that is worth; a verdict, a
// leeway, a place or a word may not.
const kAreaDiffers = 0.1;
function nearly(one, other, key) {
  if (typeof one === "number" && typeof other === "number") {
    if (key === "area") return Math.abs(one - other) <= kAreaDiffers;
    if (key === "fraction") return Math.abs(one - other) <= 1e-5;
    return one === other;
  }
  if (one === null || typeof one !== "object") return one === other;
  const keys = Object.keys(one);
  return other !== null && typeof other === "object" && keys.length === Object.keys(other).length &&
         keys.every((k) => nearly(one[k], other[k], k));
}
function saysTheSame(request, got, wanted) {
  if (got === wanted) return true;
  if (!quick.includes(request)) return false;
  const [one, other] = [JSON.parse(got), JSON.parse(wanted)];
  for (const answer of [one, other]) {
    if (request.do === "check") answer.text = JSON.parse(answer.text);
    delete answer.plan;
  }
  ++differing;
  return nearly(one, other);
}

let differing = 0;
function random(open) {
  const made = spawnSync(native, ["random", "0", String(setups)], {maxBuffer: 1 << 28});
  const texts = made.stdout.toString("utf8").trimEnd().split("\n").map((line) => JSON.parse(line));
  if (texts.length !== setups) throw new Error(`${texts.length} random setups`);
  const requests = texts.flatMap((text, i) => [{do: "read", text}, ...quick, ...(i % 50 === 0 ? slow : [])]);
  const wanted = natively(requests);
  const session = open();
  let seed = -1;
  requests.forEach((request, i) => {
    if (request.do === "read") ++seed;
    const got = session.text(JSON.stringify(request));
    if (!saysTheSame(request, got, wanted[i])) complain(`random setup ${seed}: ${request.do} differs`);
  });
  console.log(`${differing} answers with an area of their own`);
  if (differing > requests.length / 200) complain(`${differing} of ${requests.length} answers differ in areas`);
  session.close();
  return requests.length;
}

// Whatever comes: a fault in words, and the session goes on.
function hostile(open) {
  const session = open();
  session.call({do: "read", example: "godwit-all-well"});
  const deep = "[".repeat(100000) + "]".repeat(100000);
  const requests = [
    "", "{", "[]", "\u0001", '{"do":"frame","plan":{"width":1e300}}', '{"do":' + deep + "}",
    JSON.stringify({do: "read", text: deep}), JSON.stringify({do: "read", text: " ".repeat((16 << 20) + 1)}),
    JSON.stringify({do: "read", text: '{"name":"' + "<script>".repeat(1000) + '"}'}),
    JSON.stringify({do: "change", changes: {"/request/grid/columns": 1000, "/request/grid/rows": 1000}}),
    JSON.stringify({do: "bracket", map: {x: [0, 1, 1e9], y: [0, 1, 2]}}),
    JSON.stringify({do: "fill", template: "{{#a}}".repeat(100000)}),
    JSON.stringify({do: "measure", readings: "x,y\n".repeat(100000)}),
    JSON.stringify({do: "frame", wibble: deep}),
  ];
  for (const request of requests) {
    const answer = JSON.parse(session.text(request));
    const shown = request.slice(0, 60);
    if (answer.ok || answer.faults.length === 0) complain(`${shown}: is taken`);
    for (const fault of answer.faults ?? []) {
      if (/fault of the program/.test(fault.message)) complain(`${shown}: ${fault.message}`);
    }
    if (!session.call({do: "frame"}).ok) complain(`${shown}: then no frame`);
  }
  session.close();
  return requests.length;
}

async function stops() {
  let calls = 0;
  const open = await openEngine(wasm, () => ++calls > 3);
  const session = open();
  session.call({do: "read", example: "curlew-clips"});
  const answer = session.call({do: "fit"});
  if (!answer.stopped) complain("fit is not stopped by its progress");
  session.close();
}

(async () => {
  const open = await openEngine(wasm);
  console.log(`${approved(open)} approved runs`);
  console.log(`${hostile(open)} requests that mean harm`);
  await stops();
  console.log(`${random(open)} answers for ${setups} random setups`);
  if (wrong > 0) console.error(`${wrong} complaints`);
  process.exit(wrong > 0 ? 1 : 0);
})();
