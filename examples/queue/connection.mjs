/** Where the queue is: `REDIS_URL`, or the Redis of this machine. */
export const connection = {
  url: process.env.REDIS_URL ?? 'redis://127.0.0.1:6379',
  // A worker waits as long as it must for the server.
  maxRetriesPerRequest: null,
};

export const QUEUE = 'underink-pages';
