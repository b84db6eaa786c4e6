package main

func (p *plan) writeFiles(dir string) error { return nil }
