// Puts the page together: one HTML file that loads nothing.
//
//   node build.mjs --wasm leeway.wasm --out leeway.html

import {build} from 'esbuild';
import {execFileSync} from 'node:child_process';
import {createHash} from 'node:crypto';
import {readFileSync, renameSync, rmSync, writeFileSync} from 'node:fs';
import {dirname, join} from 'node:path';
import {fileURLToPath} from 'node:url';
import {parseArgs} from 'node:util';
import {planStyle} from './plan_style.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const {values} = parseArgs({options: {wasm: {type: 'string'}, out: {type: 'string'}}});
if (!values.wasm || !values.out) {
  console.error('usage: node build.mjs --wasm FILE --out FILE');
  process.exit(2);
}

const shared = {
  bundle: true, write: false, minify: true, format: 'iife', target: ['chrome111', 'firefox115', 'safari16.4'],
  legalComments: 'none', charset: 'ascii',
};

async function bundled(options) {
  return (await build({...shared, ...options})).outputFiles[0].text;
}

// What ends the element would end the script.
const inScript = (text) => text.replaceAll('</script', '<\\/script').trim();
const hash = (text) => "'sha256-" + createHash('sha256').update(text, 'utf8').digest('base64') + "'";

// Bytes as text that ends no element and stands in UTF-8 as it is: 13 bits in two letters of 91, from
// "!" on, with "~" for "<". A quarter more than the bytes; base64 takes a third. engine.ts reads it.
function letters(bytes) {
  const letter = (value) => String.fromCharCode(value === 27 ? 126 : value + 33);
  const text = [];
  let bits = 0;
  let held = 0;
  const write = () => text.push(letter(Math.floor((held & 8191) / 91)), letter((held & 8191) % 91));
  for (const byte of bytes) {
    held |= byte << bits;
    bits += 8;
    if (bits < 13) continue;
    write();
    held >>= 13;
    bits -= 13;
  }
  if (bits > 0) write();
  return text.join('');
}

const worker = await bundled({entryPoints: [join(here, 'worker.ts')]});
const script = inScript(await bundled({
  entryPoints: [join(here, 'main.tsx')],
  jsx: 'automatic', jsxImportSource: 'preact',
  plugins: [{
    name: 'worker-text',
    setup(bundle) {
      bundle.onResolve({filter: /^worker-text$/}, () => ({path: 'worker', namespace: 'worker-text'}));
      bundle.onLoad({filter: /.*/, namespace: 'worker-text'}, () => ({contents: worker, loader: 'text'}));
    },
  }],
}));

async function styled(css) {
  const made = await build({...shared, stdin: {contents: css, loader: 'css'}});
  if (made.warnings.length > 0) process.exit(1);  // esbuild has said what is wrong
  return made.outputFiles[0].text.trim();
}

// A custom section at the end of a module (WebAssembly core specification, 5.5.3).
function withSection(module, name, text) {
  const leb = (number) => number < 128 ? [number] : [number % 128 | 128, ...leb(Math.floor(number / 128))];
  const held = Buffer.concat([Buffer.from(leb(name.length)), Buffer.from(name), Buffer.from(text)]);
  return Buffer.concat([module, Buffer.from([0]), Buffer.from(leb(held.length)), held]);
}

// The plan's style is packed with the engine that draws it.
const wasm = readFileSync(values.wasm);
const css = (name) => readFileSync(join(here, name), 'utf8');
const style = await styled(css('tokens.css') + css('start.css') + css('page.css'));
const packed = values.out + '.wasm';
writeFileSync(packed, withSection(wasm, 'style', await styled(await planStyle(wasm) + css('plan.css'))));
// Browsers unpack gzip; zopfli writes it in the fewest bytes.
const engine = execFileSync('zopfli', ['-c', packed], {maxBuffer: 1 << 26});
rmSync(packed);

const policy = ["default-src 'none'", `script-src ${hash(script)} 'wasm-unsafe-eval'`, `style-src ${hash(style)}`,
                'worker-src blob:', 'img-src data: blob:', "base-uri 'none'", "form-action 'none'"].join('; ');
const parts = {
  POLICY: policy, STYLE: style, SCRIPT: script,
  ENGINE: letters(engine), BYTES: String(engine.length),
};
const html = readFileSync(join(here, 'page.html'), 'utf8').replace(/@([A-Z]+)@/g, (_, name) => parts[name]);
writeFileSync(values.out + '.part', html);
renameSync(values.out + '.part', values.out);
console.log(`${values.out}: ${Math.round(html.length / 1000)} KB`);
