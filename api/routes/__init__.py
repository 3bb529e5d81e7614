"""One file a resource: each reads its request, asks the store or `calc`, and answers."""
