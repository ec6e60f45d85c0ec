export { DataSource } from 'typeorm';
