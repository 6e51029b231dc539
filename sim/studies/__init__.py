"""One function for each question a user asks: a scenario or plain numbers in, a frozen result out."""
