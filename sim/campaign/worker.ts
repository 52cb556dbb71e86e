import { answerTasks } from '../../firmware-host/work/answering.ts';
import { campaignTask } from './task.ts';

answerTasks({ campaign: () => campaignTask });
