"""Reading: from a plain question to the requests that it may mean."""
