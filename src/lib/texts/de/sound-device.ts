import type { say } from '../sound-device';

export const soundDevice: typeof say = {
  weakClick:
    'Dieser Browser kann den Klick nicht von der Seite trennen: ein Klick kann ausfallen, während die Seite beschäftigt ist.',
  noClick: 'Dieser Browser kann den Klick nicht abspielen. Üben kannst du auch ohne ihn.',
  soundOff:
    'Der Browser hält den Ton aus. Berühre einmal den Bildschirm und starte dann den Klick noch einmal.',
  notLoaded: 'Der Klick ließ sich nicht laden. Öffne die Seite noch einmal oder übe ohne den Klick.',
  noSound: 'Dieses Gerät gibt gerade keinen Ton her. Üben kannst du auch ohne den Klick.',

  drillRefused: (reason) => `Die Übung konnte nicht beginnen: ${reason}`,
  passageGone: 'Diese Passage gibt es im Stück nicht mehr.',
  tuningUp: (tone) => `Stimmen: ${tone}`,

  noMidi: 'Dieser Browser kennt kein MIDI. Ein Fußschalter, der Tasten sendet, geht trotzdem.',
  nameless: 'ein Gerät ohne Namen',
  noMidiDevice:
    'Erlaubt, aber es ist kein MIDI-Gerät angeschlossen. Schließ es an, dann geht es bei der nächsten Übung.',
  midiWorks: (devices) => `Jeder Druck gilt jetzt als Berührung: ${devices}.`,
  midiRefused:
    'Der Browser erlaubt hier kein MIDI. Erlaube es in den Einstellungen der Seite und versuch es dann noch einmal.',
};
