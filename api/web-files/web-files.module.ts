import { Module } from '@nestjs/common';
import { WebFilesController } from './web-files.controller.ts';

@Module({ controllers: [WebFilesController] })
export class WebFilesModule {}
