import { Column, Entity, PrimaryColumn, Unique } from 'typeorm';

/** A person; the sign-in library writes this table too, as its users. */
@Entity('person')
@Unique('person_email_unique', ['email'])
export class PersonEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'person_pk' })
  id: string;

  @Column('text')
  name: string;

  @Column('text')
  email: string;

  @Column('boolean', { name: 'email_verified' })
  emailVerified: boolean;

  @Column('text', { nullable: true })
  image: string | null;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;

  @Column('timestamptz', { name: 'updated_at' })
  updatedAt: Date;
}
