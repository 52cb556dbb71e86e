import { answerTasks } from '../work/answering.ts';
import { anyTask } from './byte-task.ts';

answerTasks({ campaign: () => anyTask });
