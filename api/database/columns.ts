/** A row as plain data: the columns of an entity, without its class. */
export type Columns<Entity> = { [Name in keyof Entity]: Entity[Name] };
