import { answerTasks } from './answering.ts';
import { JOBS } from './jobs.ts';

answerTasks(JOBS);
