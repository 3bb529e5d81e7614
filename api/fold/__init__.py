"""Operations made into a job document: the same rules as on the phone, held by `fixtures/vectors`.

`text` reads an operation strictly, `places` knows the items around a path, `holding` finds what each place
holds, `document` folds, `receipt` sums. No database, no clock, no network.
"""
