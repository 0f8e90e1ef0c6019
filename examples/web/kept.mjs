// What the browser keeps from one visit to the next: records in IndexedDB, by key.

const STORE = 'sheet';

export async function readKept(key) {
  return inStore('readonly', (store) => store.get(key));
}

export async function writeKept(key, value) {
  await inStore('readwrite', (store) => store.put(value, key));
}

async function inStore(mode, ask) {
  const database = await open();
  try {
    return await new Promise((resolve, reject) => {
      const transaction = database.transaction(STORE, mode);
      const request = ask(transaction.objectStore(STORE));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onerror = () => reject(transaction.error);
      transaction.onabort = () => reject(transaction.error);
    });
  } finally {
    database.close();
  }
}

function open() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open('underink-worksheet', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
