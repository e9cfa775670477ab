import {render} from 'preact';
import {App} from './view/app';
import {Work} from './work';

const lacks = [
  ['WebAssembly', 'WebAssembly'],
  ['Worker', 'workers'],
  ['DecompressionStream', 'the unpacking of what is compressed (DecompressionStream)'],
].filter(([name]) => !(name! in window)).map(([, says]) => says);

const work = new Work();
const page = document.getElementById('page')!;
if (lacks.length > 0) {
  document.getElementById('starting')!.textContent =
    `This browser lacks ${lacks.join(' and ')}. A newer one will do, or the command: leeway check SETUP.`;
} else {
  page.textContent = '';
  render(<App work={work} />, page);
  void work.begin();
}
