import { byId } from './elements.mjs';

/** Calls `take` with a file that is dropped anywhere on the page, or chosen. */
export function takeFiles(take) {
  const drop = byId('drop');
  addEventListener('dragover', (event) => {
    event.preventDefault();
    drop.classList.add('over');
  });
  addEventListener('dragleave', () => drop.classList.remove('over'));
  addEventListener('drop', (event) => {
    event.preventDefault();
    drop.classList.remove('over');
    const [file] = event.dataTransfer.files;
    if (file !== undefined) take(file);
  });
  const input = byId('file');
  byId('choose').addEventListener('click', () => input.click());
  input.addEventListener('change', () => {
    const [file] = input.files;
    input.value = '';
    if (file !== undefined) take(file);
  });
}
