// Lays pages in a thread, so that the worker's own thread can tell the queue that it lives.
import layPage from '../batch/lay-page.mjs';
import { serveCalls } from '../worker/serve-calls.mjs';

await serveCalls({ layPage: ({ page }) => [layPage(page)] });
