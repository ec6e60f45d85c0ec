import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Octave and capo are chosen for each part; what was chosen for a whole file becomes the choice of each of its parts that has one. */
export class ChooseSoundingByPart1795619890000 implements MigrationInterface {
  readonly name = 'ChooseSoundingByPart1795619890000';

  async up(queryRunner: QueryRunner): Promise<void> {
    await queryRunner.query(`
      UPDATE score_version SET reading = jsonb_set(
        reading #- '{chosen,octave}' #- '{chosen,capo}',
        '{chosen,sounding}',
        COALESCE((
          SELECT jsonb_agg(jsonb_build_object('part', part -> 'part', 'octave', choice.octave, 'capo', choice.capo) ORDER BY place)
            FROM jsonb_array_elements(reading -> 'sounding') WITH ORDINALITY AS parts (part, place)
            CROSS JOIN LATERAL (SELECT
              reading #> '{chosen,octave}' AS octave,
              CASE WHEN part -> 'capo' = 'null' THEN 'null' ELSE reading #> '{chosen,capo}' END AS capo) AS choice
           WHERE choice.octave <> 'null' OR choice.capo <> 'null'
        ), '[]'))
       WHERE reading IS NOT NULL`);
  }

  /** A file has one octave and one capo again: those of its first part that chose any. */
  async down(queryRunner: QueryRunner): Promise<void> {
    const first = (kind: 'octave' | 'capo'): string => `COALESCE((
      SELECT part -> '${kind}' FROM jsonb_array_elements(reading #> '{chosen,sounding}') WITH ORDINALITY AS parts (part, place)
       WHERE part -> '${kind}' <> 'null' ORDER BY place LIMIT 1), 'null')`;
    await queryRunner.query(`
      UPDATE score_version SET reading = jsonb_set(
        jsonb_set(reading #- '{chosen,sounding}', '{chosen,octave}', ${first('octave')}),
        '{chosen,capo}', ${first('capo')})
       WHERE reading IS NOT NULL`);
  }
}
