/** A person of the demo; everyone is invented, and no mail can reach `heddle.example`. */
export interface DemoPerson {
  readonly name: string;
  readonly email: string;
}

export const demoTeacher: DemoPerson = { name: 'Maud Ferris', email: 'maud@heddle.example' };
export const demoCoTeacher: DemoPerson = { name: 'Tom Aldous', email: 'tom@heddle.example' };
export const demoStudent: DemoPerson = { name: 'Robin Tell', email: 'robin@heddle.example' };
