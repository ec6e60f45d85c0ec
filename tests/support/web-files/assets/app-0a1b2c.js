export const isTest = true;
