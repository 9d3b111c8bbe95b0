export const setup = () => undefined;
