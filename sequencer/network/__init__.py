"""The rules of the trade as seven primitives over the steps of a job."""
