/** `Promise.all` over a list with at most `limit` calls under way; results in the order of the list. */
export async function concurrently<T, R>(
  items: readonly T[],
  limit: number,
  call: (item: T) => Promise<R>,
): Promise<R[]> {
  const results: R[] = new Array(items.length);
  const queue = items.entries();
  const worker = async () => {
    for (const [index, item] of queue) results[index] = await call(item);
  };
  await Promise.all(Array.from({ length: limit }, worker));
  return results;
}
