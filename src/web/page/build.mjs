// Puts the page together: one HTML file that loads nothing.
//
//   node build.mjs --wasm leeway.wasm --out leeway.html

import {build} from 'esbuild';
import {createHash} from 'node:crypto';
import {readFileSync, renameSync, writeFileSync} from 'node:fs';
import {dirname, join} from 'node:path';
import {fileURLToPath} from 'node:url';
import {parseArgs} from 'node:util';
import {gzipSync} from 'node:zlib';
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

const wasm = readFileSync(values.wasm);
const css = readFileSync(join(here, 'tokens.css'), 'utf8') + await planStyle(wasm) +
            readFileSync(join(here, 'page.css'), 'utf8');
const styled = await build({...shared, stdin: {contents: css, loader: 'css'}});
if (styled.warnings.length > 0) process.exit(1);  // esbuild has said what is wrong
const style = styled.outputFiles[0].text.trim();

const policy = ["default-src 'none'", `script-src ${hash(script)} 'wasm-unsafe-eval'`, `style-src ${hash(style)}`,
                'worker-src blob:', 'img-src data: blob:', "base-uri 'none'", "form-action 'none'"].join('; ');
const parts = {
  POLICY: policy, STYLE: style, SCRIPT: script,
  ENGINE: gzipSync(wasm, {level: 9}).toString('base64'),
};
const html = readFileSync(join(here, 'page.html'), 'utf8').replace(/@([A-Z]+)@/g, (_, name) => parts[name]);
writeFileSync(values.out + '.part', html);
renameSync(values.out + '.part', values.out);
console.log(`${values.out}: ${Math.round(html.length / 1000)} KB`);
