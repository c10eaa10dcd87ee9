import { dayTried } from './tried.ts';

dayTried('05-curlew-rise');
