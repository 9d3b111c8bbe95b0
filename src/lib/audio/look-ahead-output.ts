import type { SoundCommand, SoundEvent, SoundRenderer } from '$lib/core/rhythm/sound-render';
import { FADE_SEC } from '$lib/core/rhythm/voice';
import { say } from '$lib/texts/sound-device';
import { newRenderer } from './new-renderer';
import type { OutputClock } from './output-clock';
import { closeContext, wakeContext, type OutputListener, type SoundOutput } from './sound-output';

/** How far ahead sound is rendered: as long may the page be held up, and so late a change of what plays is heard. */
const AHEAD_SEC = 0.6;
/** A hidden page gets its timers once a second at most. */
const AHEAD_HIDDEN_SEC = 2.5;
const TICK_MS = 50;
const CHUNK_SEC = 0.05;
/** Sound that is handed over later than this before its time may miss it. */
const MARGIN_SEC = 0.02;
/** By then the fade is over. */
const SUSPEND_MS = 15;

/** Where there is no audio worklet: the same renderer, run by the page ahead of time; each chunk starts on the audio clock. */
export class LookAheadOutput implements SoundOutput {
  readonly notice = say.weakClick;
  listener: OutputListener | null = null;
  readonly #context: AudioContext;
  readonly #renderer: SoundRenderer;
  readonly #timer: ReturnType<typeof setInterval>;
  /** The first frame that has not been rendered. */
  #frame = 0;
  #gain: GainNode;
  #isHeld = false;

  constructor(context: AudioContext) {
    this.#context = context;
    this.#renderer = newRenderer(context.sampleRate);
    this.#gain = this.#newGain();
    this.#frame = this.#earliest();
    this.#timer = setInterval(() => {
      this.#renderAhead();
    }, TICK_MS);
    context.onstatechange = () => {
      if (context.state !== 'running') this.listener?.onLost();
    };
  }

  get clock(): OutputClock {
    return this.#context;
  }

  get isRunning(): boolean {
    return this.#context.state === 'running';
  }

  send(command: SoundCommand): void {
    if (command.type === 'pause') this.#pause();
    else if (command.type === 'resume') this.#resume();
    else if (command.type === 'play' || command.type === 'stop') this.#restart(command);
    else this.#renderer.take(command);
  }

  wake(): Promise<boolean> {
    return wakeContext(this.#context);
  }

  async close(): Promise<void> {
    this.#fadeOut();
    clearInterval(this.#timer);
    await closeContext(this.#context);
  }

  #earliest(): number {
    return Math.ceil((this.#context.currentTime + MARGIN_SEC) * this.#context.sampleRate);
  }

  /** Drops what was rendered ahead, and goes on from now. */
  #restart(command: SoundCommand): void {
    this.#isHeld = false;
    this.#fadeOut();
    const spent = this.#gain;
    setTimeout(() => {
      spent.disconnect();
    }, SUSPEND_MS);
    this.#gain = this.#newGain();
    this.#renderer.take({ type: 'stop' });
    // the voices fall silent in what nobody hears
    const dropped = this.#renderer.render(this.#chunk(), this.#frame);
    this.#frame = this.#earliest();
    if (command.type === 'stop') this.#tell(dropped);
    else this.#renderer.take(command);
    this.#renderAhead();
  }

  /** What has been rendered waits in the context itself, which stands still once the fade is over. */
  #pause(): void {
    this.#isHeld = true;
    this.#fadeOut();
    this.#tell([{ type: 'paused', frame: this.#nowFrame() }]);
    setTimeout(() => {
      if (this.#isHeld) void this.#context.suspend();
    }, SUSPEND_MS);
  }

  #resume(): void {
    this.#isHeld = false;
    this.#gain.gain.linearRampToValueAtTime(1, this.#context.currentTime + FADE_SEC);
    this.#tell([{ type: 'resumed', frame: this.#nowFrame(), shift: 0 }]);
  }

  #renderAhead(): void {
    if (!this.isRunning) return;
    const { currentTime, sampleRate } = this.#context;
    const ahead = document.hidden ? AHEAD_HIDDEN_SEC : AHEAD_SEC;
    while (this.#frame < (currentTime + ahead) * sampleRate) {
      const chunk = this.#chunk();
      this.#tell(this.#renderer.render(chunk, this.#frame));
      // what comes too late is left out: better a click lost than one in the wrong place
      if (this.#frame >= currentTime * sampleRate && chunk.some((sample) => sample !== 0)) this.#start(chunk);
      this.#frame += chunk.length;
    }
  }

  #start(chunk: Float32Array<ArrayBuffer>): void {
    const { sampleRate } = this.#context;
    const buffer = this.#context.createBuffer(1, chunk.length, sampleRate);
    buffer.copyToChannel(chunk, 0);
    const source = this.#context.createBufferSource();
    source.buffer = buffer;
    source.connect(this.#gain);
    source.start(this.#frame / sampleRate);
  }

  #chunk(): Float32Array<ArrayBuffer> {
    return new Float32Array(Math.round(CHUNK_SEC * this.#context.sampleRate));
  }

  #nowFrame(): number {
    return Math.round(this.#context.currentTime * this.#context.sampleRate);
  }

  #newGain(): GainNode {
    const gain = this.#context.createGain();
    gain.connect(this.#context.destination);
    return gain;
  }

  #fadeOut(): void {
    const { gain } = this.#gain;
    gain.setValueAtTime(gain.value, this.#context.currentTime);
    gain.linearRampToValueAtTime(0, this.#context.currentTime + FADE_SEC);
  }

  /** Later than the call that brought it about, as from a worklet. */
  #tell(events: readonly SoundEvent[]): void {
    if (events.length > 0) queueMicrotask(() => this.listener?.onEvents(events));
  }
}
