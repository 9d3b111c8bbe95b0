import { MidiPresses } from '$lib/core/practice/midi-press';
import { say } from '$lib/texts/sound-device';

/** What came of asking for the MIDI devices, as a sentence. */
export async function askForMidi(): Promise<string> {
  if (!('requestMIDIAccess' in navigator)) return say.noMidi;
  try {
    const { inputs } = await navigator.requestMIDIAccess();
    const names = [...inputs.values()].map(({ name }) => name ?? say.nameless);
    return names.length === 0 ? say.noMidiDevice : say.midiWorks(names.join(', '));
  } catch {
    return say.midiRefused;
  }
}

/**
 * A press on what has no keys: any button of a game pad, or a MIDI pedal once the learner has allowed MIDI. Listens from
 * its making until `release`; where the browser has neither, nothing happens.
 */
export class FootSwitch {
  readonly #onPress: () => void;
  readonly #presses = new MidiPresses();
  readonly #down = new Set<string>();
  #frame = 0;
  #midi: MIDIAccess | null = null;
  #isReleased = false;

  constructor(onPress: () => void) {
    this.#onPress = onPress;
    if ('getGamepads' in navigator) {
      addEventListener('gamepadconnected', this.#watchPads);
      // one that was pressed on an earlier screen is there already
      if (navigator.getGamepads().some((pad) => pad !== null)) this.#watchPads();
    }
    void this.#openMidi();
  }

  release(): void {
    this.#isReleased = true;
    removeEventListener('gamepadconnected', this.#watchPads);
    cancelAnimationFrame(this.#frame);
    for (const input of this.#midi?.inputs.values() ?? []) input.onmidimessage = null;
    if (this.#midi) this.#midi.onstatechange = null;
  }

  /** Game pads send no events: their buttons are looked at with every frame while one is there. */
  readonly #watchPads = (): void => {
    cancelAnimationFrame(this.#frame);
    let isThere = false;
    for (const pad of navigator.getGamepads()) {
      if (!pad) continue;
      isThere = true;
      for (const [index, { pressed }] of pad.buttons.entries())
        this.#follow(`${pad.index} ${index}`, pressed);
    }
    if (isThere && !this.#isReleased) this.#frame = requestAnimationFrame(this.#watchPads);
  };

  #follow(button: string, isPressed: boolean): void {
    if (!isPressed) this.#down.delete(button);
    else if (!this.#down.has(button)) {
      this.#down.add(button);
      this.#onPress();
    }
  }

  /** Asks nothing: only where MIDI has been allowed before. */
  async #openMidi(): Promise<void> {
    if (!('requestMIDIAccess' in navigator)) return;
    try {
      const { state } = await navigator.permissions.query({ name: 'midi' });
      if (state !== 'granted') return;
      const midi = await navigator.requestMIDIAccess();
      if (this.#isReleased) return;
      this.#midi = midi;
      const listen = (): void => {
        for (const input of midi.inputs.values()) {
          input.onmidimessage = ({ data }) => {
            if (data && this.#presses.isPress(data)) this.#onPress();
          };
        }
      };
      midi.onstatechange = listen;
      listen();
    } catch {
      // taken back meanwhile, or unknown to this browser: touch and keys go on
    }
  }
}
