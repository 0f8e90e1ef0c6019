import { PageClient } from '../../worker/page-client.mjs';

/** The calls to `worker/sheet-worker.mjs`, beside those of every page in a worker. */
export class SheetClient extends PageClient {
  openFile(file, name, plan, onProgress) {
    return this.call('openFile', { file, name, plan }, { onProgress });
  }

  restore() {
    return this.call('restore');
  }

  keep() {
    return this.call('keep');
  }

  areas() {
    return this.call('areas');
  }

  pick(point) {
    return this.call('pick', { point });
  }

  leaks(conflict) {
    return this.call('leaks', { conflict });
  }

  flats() {
    return this.call('flats');
  }

  layers() {
    return this.call('layers');
  }
}
