//! hearthload's page: form, answers, charts, worker, state, storage.
