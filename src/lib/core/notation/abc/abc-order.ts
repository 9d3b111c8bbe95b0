const ORDER_MAX = 500;

/**
 * The parts of a header's `P:` in the order in which they are played (ABC 2.1, section 3.1.9): `A3` is `AAA`, `(AB)3` is
 * `ABABAB`, dots are for the eye. At most 500; `null` when it names none.
 */
export function expandOrder(text: string): string[] | null {
  const stack: string[][] = [[]];
  let last: string[] = [];
  for (const [token] of text.matchAll(/[A-Za-z]|\(|\)|\d{1,2}/g)) {
    const top = stack.at(-1) ?? [];
    if (token === '(') {
      stack.push([]);
      last = [];
    } else if (token === ')') {
      last = stack.length > 1 ? (stack.pop() ?? []) : [];
      stack.at(-1)?.push(...last);
    } else if (/\d/.test(token)) {
      for (let time = 1; time < Number(token) && top.length < ORDER_MAX; time += 1) top.push(...last);
      last = [];
    } else {
      last = [token];
      top.push(token);
    }
    if (top.length > ORDER_MAX) break;
  }
  const order = stack.flat().slice(0, ORDER_MAX);
  return order.length > 0 ? order : null;
}
