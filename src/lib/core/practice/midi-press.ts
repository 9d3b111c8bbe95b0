const KIND = 0xf0;
const NOTE_ON = 0x90;
const CONTROL_CHANGE = 0xb0;
const PROGRAM_CHANGE = 0xc0;
/** A switch is off from 0 to 63, and on from 64 to 127 (MIDI 1.0 Detailed Specification, table 3, controllers 64 to 69). */
const ON_FROM = 64;

/**
 * Tells the presses in what a MIDI pedal or controller sends: a note struck, a program chosen, or a controller that goes
 * from off to on, of any channel. A pedal that sends its position many times is one press.
 */
export class MidiPresses {
  readonly #on = new Set<string>();

  /** Whether one message (its bytes, status first) is a press. Never throws; what is no message is none. */
  isPress(message: Iterable<number>): boolean {
    const [status = 0, first = 0, second = 0] = message;
    switch (status & KIND) {
      case NOTE_ON:
        // of no velocity it is the end of a note
        return second > 0;
      case PROGRAM_CHANGE:
        return true;
      case CONTROL_CHANGE:
        return this.#rises(`${status} ${first}`, second >= ON_FROM);
      default:
        return false;
    }
  }

  #rises(controller: string, isOn: boolean): boolean {
    const wasOn = this.#on.has(controller);
    if (isOn) this.#on.add(controller);
    else this.#on.delete(controller);
    return isOn && !wasOn;
  }
}
