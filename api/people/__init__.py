"""Who may do what: accounts, sessions, paired phones, and the table of roles.

On loopback, as long as no account was opened, there is no sign-in: whoever sits at the machine is its owner.
"""
