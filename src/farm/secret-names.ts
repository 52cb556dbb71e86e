const hookPart = (hook: string): string => hook.toUpperCase().replaceAll('-', '_');

/** The names under which secrets are read, from the environment or from the secrets file of the state folder. */
export const SECRET_NAMES = {
  simPin: 'RILLKEEPER_SIM_PIN',
  mailPassword: 'RILLKEEPER_MAIL_PASSWORD',
  brokerPassword: 'RILLKEEPER_BROKER_PASSWORD',
  webhookKey: (hook: string): string => `RILLKEEPER_WEBHOOK_KEY_${hookPart(hook)}`,
  webhookUrl: (hook: string): string => `RILLKEEPER_WEBHOOK_URL_${hookPart(hook)}`,
} as const;
