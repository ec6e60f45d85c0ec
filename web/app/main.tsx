import { QueryClientProvider } from '@tanstack/react-query';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { RouterProvider } from 'react-router/dom';
import '../ui/fonts.css';
import '../ui/tokens.css';
import '../ui/base.css';
import { wearTheme } from '../ui/theme.ts';
import { queryClient } from './query-client.ts';
import { router } from './router.tsx';

wearTheme();
const root = document.getElementById('root');
if (root === null) throw new Error('Heddle bug: the page has no root');
createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <RouterProvider router={router} />
    </QueryClientProvider>
  </StrictMode>,
);
