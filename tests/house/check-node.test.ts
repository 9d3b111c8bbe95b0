import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, onTestFinished, test } from 'vitest';

const SCRIPT = path.resolve(import.meta.dirname, '../../.house/check-node.cjs');

/** Runs the check as if this were another version of Node. */
function checkAs(version: string) {
  const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-node-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true });
  });
  const pretend = path.join(folder, 'pretend.cjs');
  const versions = JSON.stringify({ node: version });
  writeFileSync(pretend, `Object.defineProperty(process, 'versions', { value: ${versions} });`);
  return spawnSync(process.execPath, ['--require', pretend, SCRIPT], { encoding: 'utf8' });
}

test.each(['0.12.18', '18.20.4', '20.18.3'])('Node %s is refused in one line', (version) => {
  const { status, stderr } = checkAs(version);
  expect(status).toBe(1);
  expect(stderr).toBe(`Phrasewright needs Node 20.19 or newer; this is Node ${version}.\n`);
});

test.each(['20.19.0', '20.20.2', '22.0.0', '24.1.0'])('Node %s is welcome, without a word', (version) => {
  const { status, stdout, stderr } = checkAs(version);
  expect([status, stdout, stderr]).toEqual([0, '', '']);
});
