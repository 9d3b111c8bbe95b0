// Old syntax on purpose: an old Node must read this file far enough to say what is wrong.
var LOWEST = [20, 19];

var parts = process.versions.node.split('.').map(Number);
var isOld = parts[0] < LOWEST[0] || (parts[0] === LOWEST[0] && parts[1] < LOWEST[1]);
if (isOld) {
  console.error(
    'Phrasewright needs Node ' + LOWEST.join('.') + ' or newer; this is Node ' + process.versions.node + '.',
  );
  process.exit(1);
}
