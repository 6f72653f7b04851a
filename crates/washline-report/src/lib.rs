//! Findings and figures as text, tables, JSON and CSV.
