// @ts-check
/**
 * Whether the version that waits is another than the one that runs. WebKit tells at times that the very
 * first waits when it runs already.
 * @param {ServiceWorker|null} waiting
 * @param {ServiceWorker|null} running  null on the first visit
 */
export function isUpdate(waiting, running) {
  return Boolean(waiting && running && waiting !== running);
}
