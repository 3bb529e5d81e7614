"""E-mail to the customer: what is asked for in a job is queued once and sent until its end is known."""
