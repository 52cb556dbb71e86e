/** Carries a message to people. Delivery must never delay the pump. */
export interface Herald<Message> {
  readonly tell: (message: Message) => void;
}
