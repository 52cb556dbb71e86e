import { answerTasks } from '../work/answering.ts';
import { campaignTask } from '../../sim/campaign/task.ts';

answerTasks({ campaign: () => campaignTask });
